namespace SiteProgress.Core.Coordinates;

/// <summary>How the two axes of a site grid lie to each other, seen from above.</summary>
public enum SiteAxes
{
    /// <summary>The second axis lies 90 degrees counter-clockwise of the first (X east, Y north).</summary>
    RightHanded,

    /// <summary>The second axis lies 90 degrees clockwise of the first (X north, Y east).</summary>
    LeftHanded,
}
