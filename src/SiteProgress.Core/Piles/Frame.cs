namespace SiteProgress.Core.Piles;

/// <summary>The frame in which a position was recorded.</summary>
public enum Frame
{
    /// <summary>The site grid of the drawings: first and second axis, metres.</summary>
    SiteGrid = 1,

    /// <summary>The site's projected CRS: easting and northing, metres.</summary>
    ProjectedCrs = 2,

    /// <summary>Latitude and longitude on the datum of the site's projected CRS, degrees.</summary>
    Geographic = 3,
}
