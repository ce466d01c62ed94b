using System.Globalization;

namespace SiteProgress.Core.Coordinates;

/// <summary>What a control point that cannot be right looks like, in words for a surveyor; the fit's own warnings say how far it is off.</summary>
public static class ControlPointSuspicion
{
    /// <summary>A site is a few kilometres across; a mark farther from it than this belongs to another frame (common practice, no source).</summary>
    public static readonly double ReachMetres = 20_000;

    /// <summary>Looks at a mark given by latitude and longitude.</summary>
    /// <param name="crs">The projected CRS, on whose datum the position is.</param>
    /// <param name="name">Name of the mark.</param>
    /// <param name="given">The position as given.</param>
    /// <param name="expected">Where the site is.</param>
    public static string? OfPlace(ProjectedCrs crs, string name, GeographicCoordinate given, GeographicCoordinate expected)
        => Say(name, FrameSuspicion.Explain(crs, given, expected, ReachMetres), given, expected);

    /// <summary>Looks at a mark given in the projected CRS.</summary>
    /// <param name="crs">The projected CRS.</param>
    /// <param name="name">Name of the mark.</param>
    /// <param name="given">The position as given.</param>
    /// <param name="expected">Where the site is.</param>
    public static string? OfPlace(ProjectedCrs crs, string name, ProjectedCoordinate given, GeographicCoordinate expected)
    {
        ArgumentNullException.ThrowIfNull(crs);
        return Say(name, FrameSuspicion.Explain(crs, given, expected, ReachMetres), crs.Unproject(given), expected);
    }

    /// <summary>Looks at a mark that contradicts the others: does it agree once its two site coordinates, or its easting and northing, change places?</summary>
    /// <param name="mark">The mark.</param>
    /// <param name="others">The fit of the other marks alone.</param>
    /// <returns>What it looks like; null where an exchange does not make it agree.</returns>
    public static string? OfContradiction(ControlPoint mark, Adjustment others)
    {
        ArgumentNullException.ThrowIfNull(mark);
        ArgumentNullException.ThrowIfNull(others);
        double near = Math.Max(0.05, 10 * mark.StandardDeviationMetres);
        ProjectedCoordinate exchanged = others.Forward(new SiteCoordinate(mark.Site.YMetres, mark.Site.XMetres));
        if (Distance(exchanged, mark.Projected) < near) return $"{mark.Name}: its two site coordinates look swapped; exchanged, it agrees with the other marks.";
        ProjectedCoordinate swapped = new(mark.Projected.NorthingMetres, mark.Projected.EastingMetres);
        return Distance(others.Forward(mark.Site), swapped) < near ? $"{mark.Name}: easting and northing look swapped; exchanged, it agrees with the other marks." : null;
    }

    private static string? Say(string name, string? explained, GeographicCoordinate given, GeographicCoordinate expected)
    {
        if (explained is not null) return $"{name}: {explained}";
        double away = new AreaOfUse(expected.LatitudeDegrees, expected.LongitudeDegrees, expected.LatitudeDegrees, expected.LongitudeDegrees).DistanceOutsideMetres(given);
        return away <= ReachMetres ? null
            : double.IsFinite(away) ? string.Create(CultureInfo.InvariantCulture, $"{name} lies {away / 1000:0} km from where the site is by the adjustment in force.")
            : $"{name} has no place on the earth by this projected CRS.";
    }

    private static double Distance(ProjectedCoordinate one, ProjectedCoordinate other)
        => Math.Sqrt(Math.Pow(one.EastingMetres - other.EastingMetres, 2) + Math.Pow(one.NorthingMetres - other.NorthingMetres, 2));
}
