namespace SiteProgress.Core.Coordinates;

/// <summary>Which way an axis of a projected CRS counts up.</summary>
public enum AxisDirection
{
    /// <summary>Values grow to the east.</summary>
    East,

    /// <summary>Values grow to the north.</summary>
    North,

    /// <summary>Values grow to the west.</summary>
    West,

    /// <summary>Values grow to the south.</summary>
    South,
}

/// <summary>One axis of a projected CRS as its definition names it.</summary>
/// <param name="Name">The axis's name or abbreviation, for example Easting, X or Westing.</param>
/// <param name="Direction">Which way it counts up.</param>
public sealed record CrsAxis(string Name, AxisDirection Direction);

/// <summary>The unit a projected CRS is written in.</summary>
/// <param name="Name">The unit's name as the definition writes it.</param>
/// <param name="Metres">Length of one unit, metres.</param>
public sealed record LinearUnit(string Name, double Metres);

/// <summary>The meridian a CRS counts its longitudes from.</summary>
/// <param name="Name">Its name.</param>
/// <param name="GreenwichLongitudeDegrees">Where it lies, degrees east of Greenwich.</param>
public sealed record PrimeMeridian(string Name, double GreenwichLongitudeDegrees);
