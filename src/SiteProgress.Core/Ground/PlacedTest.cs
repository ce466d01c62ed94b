using SiteProgress.Core.Coordinates;

namespace SiteProgress.Core.Ground;

/// <summary>A standard penetration test with its borehole put on the site grid.</summary>
/// <param name="Sequence">Sequence of its record.</param>
/// <param name="Test">The test as recorded.</param>
/// <param name="At">Where its borehole is, site grid, metres; null where the record does not say.</param>
public sealed record PlacedTest(long Sequence, PenetrationTest Test, SiteCoordinate? At)
{
    /// <summary>Level of the top of the test, metres above the level datum; null where the level of the ground is not on record.</summary>
    public double? LevelMetres => Test.GroundLevelMetres - Test.TopDepthMetres;
}
