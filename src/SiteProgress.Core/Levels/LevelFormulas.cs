namespace SiteProgress.Core.Levels;

/// <summary>The three ways from a recorded depth to a level on the site's datum. All values in metres, levels up positive, depths down positive.</summary>
public static class LevelFormulas
{
    /// <summary>Water level minus depth below water.</summary>
    public static double BelowWaterMetres(double waterLevelMetres, double depthMetres) => waterLevelMetres - depthMetres;

    /// <summary>Water level plus freeboard at the casing minus depth below deck.</summary>
    public static double BelowDeckMetres(double waterLevelMetres, double freeboardMetres, double depthMetres)
        => waterLevelMetres + freeboardMetres - depthMetres;

    /// <summary>Height of the antenna above the ellipsoid, minus height of the datum above the ellipsoid there, minus the length from antenna to tip.</summary>
    public static double FromAntennaMetres(double antennaHeightMetres, double separationMetres, double lengthMetres)
        => antennaHeightMetres - separationMetres - lengthMetres;
}
