namespace SiteProgress.Core.Piles;

/// <summary>How the coordinates of a record are read where a person decided that they were not written as they say.</summary>
public enum PositionReading
{
    /// <summary>First and second coordinate exchanged.</summary>
    AxesExchanged = 1,

    /// <summary>As easting and northing of the projected CRS.</summary>
    ProjectedCrs = 2,
}
