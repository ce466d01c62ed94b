namespace SiteProgress.Core.Coordinates;

/// <summary>
/// Says what a coordinate that lies far from where it should looks like: swapped axes, degrees, feet, a neighbouring zone. A swap rarely fails
/// by itself: it is a place on earth like any other, so only the distance from the site shows it.
/// </summary>
public static class FrameSuspicion
{
    private const double FootMetres = 0.3048;

    /// <summary>Looks at a point given in the projected CRS.</summary>
    /// <param name="crs">The CRS it was given in.</param>
    /// <param name="point">The point, metres east and north.</param>
    /// <param name="expected">Where the site is.</param>
    /// <param name="reachMetres">How far from there a point may lie, metres.</param>
    /// <returns>What it looks like, as a sentence; null where it lies within reach or like nothing known.</returns>
    public static string? Explain(ProjectedCrs crs, ProjectedCoordinate point, GeographicCoordinate expected, double reachMetres)
    {
        ArgumentNullException.ThrowIfNull(crs);
        double east = point.EastingMetres, north = point.NorthingMetres;
        var near = new Nearness(crs, expected, reachMetres);
        if (near.Holds(point)) return null;
        if (near.Holds(new ProjectedCoordinate(north, east))) return "Easting and northing look swapped: exchanged, the point lies at the site.";
        if (near.Holds(new GeographicCoordinate(north, east))) return "These look like longitude and latitude in degrees, not metres.";
        if (near.Holds(new GeographicCoordinate(east, north))) return "These look like latitude and longitude in degrees, not metres.";
        if (near.Holds(new ProjectedCoordinate(east * FootMetres, north * FootMetres))) return "These look like feet: read as feet, the point lies at the site.";
        if (near.Holds(new ProjectedCoordinate(east / FootMetres, north / FootMetres))) return "These look like metres in a system of feet: read as metres, the point lies at the site.";
        if (near.Holds(new ProjectedCoordinate(-east, -north))) return "Both signs look reversed: west and south counted as east and north.";
        if (near.Holds(new ProjectedCoordinate(east % 1_000_000, north))) return "The easting looks prefixed with its zone number: without the millions, the point lies at the site.";
        var geographic = crs.Unproject(point);
        foreach (var width in (ReadOnlySpan<double>)[6, -6, 3, -3])
            if (near.Holds(geographic with { LongitudeDegrees = geographic.LongitudeDegrees + width }))
                return $"This looks like a point of the neighbouring zone, whose central meridian lies {Math.Abs(width)} degrees further {(width > 0 ? "east" : "west")}.";
        return null;
    }

    /// <summary>Looks at a point given by latitude and longitude.</summary>
    /// <param name="crs">The projected CRS of the site, on whose datum the position is.</param>
    /// <param name="point">The position, degrees.</param>
    /// <param name="expected">Where the site is.</param>
    /// <param name="reachMetres">How far from there a point may lie, metres.</param>
    /// <returns>What it looks like, as a sentence; null where it lies within reach or like nothing known.</returns>
    public static string? Explain(ProjectedCrs crs, GeographicCoordinate point, GeographicCoordinate expected, double reachMetres)
    {
        ArgumentNullException.ThrowIfNull(crs);
        double latitude = point.LatitudeDegrees, longitude = point.LongitudeDegrees;
        var near = new Nearness(crs, expected, reachMetres);
        if (near.Holds(point)) return null;
        if (near.Holds(new GeographicCoordinate(longitude, latitude))) return "Latitude and longitude look swapped: exchanged, the point lies at the site.";
        if (near.Holds(new GeographicCoordinate(latitude, -longitude))) return "The longitude's sign looks reversed: east for west or west for east.";
        if (near.Holds(new GeographicCoordinate(-latitude, longitude))) return "The latitude's sign looks reversed: north for south or south for north.";
        if (near.Holds(new ProjectedCoordinate(longitude, latitude)) || near.Holds(new ProjectedCoordinate(latitude, longitude)))
            return "These look like easting and northing in metres, not latitude and longitude.";
        if (near.Holds(new GeographicCoordinate(latitude * 180 / Math.PI, longitude * 180 / Math.PI))) return "These look like radians: read as radians, the point lies at the site.";
        if (near.Holds(new GeographicCoordinate(latitude * 0.9, longitude * 0.9))) return "These look like grads: read as grads, the point lies at the site.";
        return null;
    }

    private readonly record struct Nearness(ProjectedCrs Crs, GeographicCoordinate Expected, double ReachMetres)
    {
        public bool Holds(ProjectedCoordinate point) => Holds(Crs.Unproject(point));

        public bool Holds(GeographicCoordinate point) =>
            Math.Abs(point.LatitudeDegrees) <= 90
            && new AreaOfUse(Expected.LatitudeDegrees, Expected.LongitudeDegrees, Expected.LatitudeDegrees, Expected.LongitudeDegrees)
                .DistanceOutsideMetres(point) <= ReachMetres;
    }
}
