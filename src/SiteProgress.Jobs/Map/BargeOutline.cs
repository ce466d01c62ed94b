using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;

namespace SiteProgress.Jobs.Map;

/// <summary>
/// Where a barge lay when it built its last pile. The settings say where each casing stands from the barge's reference point
/// and how long and wide the hull is, not where in the hull that point lies: it is taken as the middle (common practice, no source).
/// </summary>
internal static class BargeOutline
{
    // Share of the hull's length at which the sides turn in to the bow, so that the outline shows which way the barge heads.
    private const double Shoulder = 0.42;

    /// <summary>Corners of the hull in the projected CRS, metres, closed; the third corner is the bow.</summary>
    /// <param name="casingAt">Casing axis as recorded, projected CRS.</param>
    /// <param name="casing">The casing's place on the barge.</param>
    /// <param name="hull">The hull.</param>
    /// <param name="gridHeadingDegrees">Heading, degrees clockwise from CRS grid north.</param>
    public static ProjectedCoordinate[] Of(ProjectedCoordinate casingAt, Casing casing, Hull hull, double gridHeadingDegrees)
    {
        (double sine, double cosine) = Math.SinCos(gridHeadingDegrees * Math.PI / 180);
        ProjectedCoordinate Place(double forward, double starboard) => new(
            casingAt.EastingMetres + (forward * sine) + (starboard * cosine),
            casingAt.NorthingMetres + (forward * cosine) - (starboard * sine));
        ProjectedCoordinate Corner(double lengthShare, double beamShare) => Place(
            (lengthShare * hull.LengthMetres) - casing.ForwardMetres, (beamShare * hull.BeamMetres) - casing.StarboardMetres);
        ProjectedCoordinate first = Corner(-0.5, -0.5);
        return [first, Corner(Shoulder, -0.5), Corner(0.5, 0), Corner(Shoulder, 0.5), Corner(-0.5, 0.5), first];
    }

    /// <summary>A heading from another north, as a heading from CRS grid north, degrees.</summary>
    /// <param name="headingDegrees">Heading as recorded.</param>
    /// <param name="north">The north it is counted from; CRS grid where the record does not say.</param>
    /// <param name="service">The ways between the site's frames.</param>
    /// <param name="at">Where the barge lay.</param>
    public static double GridHeading(double headingDegrees, North? north, CoordinateService service, GeographicCoordinate at) => north switch
    {
        North.TrueNorth => headingDegrees - service.DistortionAt(at).ConvergenceDegrees,
        North.SiteGrid => headingDegrees + service.Adjustment.BearingOfSiteNorthDegrees,
        _ => headingDegrees,
    };
}
