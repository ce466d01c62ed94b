using System.Globalization;
using Npgsql;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Access;

namespace SiteProgress.Jobs.SiteGrid;

/// <summary>Puts points from one frame of the site into all three, by the adjustment in force.</summary>
public sealed class ConvertPoints(NpgsqlDataSource store)
{
    /// <summary>Points of one call at most.</summary>
    public static int MostPoints => 100_000;

    /// <summary>Beyond this distance from the middle of the marks a point is told apart: the fit holds for a few kilometres.</summary>
    private const double FarMetres = 20_000;

    /// <summary>Converts points.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="points">Points in any of the three frames: metres, or degrees for geographic ones.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>The points in the order given; null before an adjustment is adopted.</returns>
    /// <exception cref="ArgumentException">There are more points than one call takes.</exception>
    [Needs(Right.See)]
    public async Task<Conversion?> RunAsync(Permit permit, IReadOnlyList<RecordedPosition> points, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        ArgumentNullException.ThrowIfNull(points);
        if (points.Count > MostPoints) throw new ArgumentException($"{points.Count} points were given; one call takes {MostPoints}.", nameof(points));
        if (await SiteAdjustments.ReadAsync(store, permit.Site, cancellation) is not [.., { } current]) return null;
        CoordinateService service = SiteAdjustments.Service(current.Body);
        ProjectedCoordinate[] projected = new ProjectedCoordinate[points.Count];
        for (int index = 0; index < projected.Length; index++) projected[index] = Projected(service, points[index]);
        GeographicCoordinate[] geographic = new GeographicCoordinate[points.Count];
        SiteCoordinate[] site = new SiteCoordinate[points.Count];
        service.ProjectedToGeographic(projected, geographic);
        service.ProjectedToSite(projected, site);
        ConvertedPoint[] converted = new ConvertedPoint[points.Count];
        for (int index = 0; index < converted.Length; index++)
        {
            // What was typed comes back as typed, not after a round trip.
            if (points[index].Frame == Frame.Geographic) geographic[index] = new GeographicCoordinate(points[index].First, points[index].Second);
            if (points[index].Frame == Frame.SiteGrid) site[index] = new SiteCoordinate(points[index].First, points[index].Second);
            converted[index] = Describe(service, points[index], site[index], projected[index], geographic[index]);
        }

        return new Conversion(current.Body.Adjustment.Revision, service.Crs, converted);
    }

    private static ProjectedCoordinate Projected(CoordinateService service, RecordedPosition point) => point.Frame switch
    {
        Frame.SiteGrid => service.ToProjected(new SiteCoordinate(point.First, point.Second)),
        Frame.ProjectedCrs => new ProjectedCoordinate(point.First, point.Second),
        Frame.Geographic => service.ToProjected(new GeographicCoordinate(point.First, point.Second)),
        _ => throw new ArgumentOutOfRangeException(nameof(point), point.Frame, "There are three frames."),
    };

    private static ConvertedPoint Describe(
        CoordinateService service, RecordedPosition given, SiteCoordinate site, ProjectedCoordinate projected, GeographicCoordinate geographic)
    {
        if (WhyNot(service, given, projected, geographic) is { } refusal) return new ConvertedPoint(given, null, refusal, null);
        double distance = Math.Sqrt(
            Math.Pow(projected.EastingMetres - service.Adjustment.ProjectedOrigin.EastingMetres, 2)
            + Math.Pow(projected.NorthingMetres - service.Adjustment.ProjectedOrigin.NorthingMetres, 2));
        string? caution = distance <= FarMetres ? null
            : string.Create(CultureInfo.InvariantCulture, $"The point lies {distance / 1000:0.0} km from the site's marks; the site grid holds for a few kilometres around them.");
        return new ConvertedPoint(given, new PointInFrames(site, projected, geographic, service.DistortionAt(geographic)), null, caution);
    }

    /// <summary>Null, or why the point has no place in the other frames.</summary>
    private static string? WhyNot(CoordinateService service, RecordedPosition given, ProjectedCoordinate projected, GeographicCoordinate geographic)
    {
        string epsg = string.Create(CultureInfo.InvariantCulture, $"EPSG:{service.Crs.EpsgCode}");
        double? outside = !IsFinite(geographic) || !double.IsFinite(projected.EastingMetres) || !double.IsFinite(projected.NorthingMetres)
            ? null
            : service.Crs.AreaOfUse?.DistanceOutsideMetres(geographic) ?? 0;
        if (outside == 0) return null;
        string refusal = outside is { } metres && double.IsFinite(metres)
            ? string.Create(CultureInfo.InvariantCulture, $"The point lies {metres / 1000:0.0} km outside the area in which {epsg} may be used.")
            : $"The point cannot be projected with {epsg}.";
        return SwappedFits(service, given)
            ? refusal + (given.Frame == Frame.Geographic ? " Latitude and longitude look swapped: the other way round it lies near the site." : " The two coordinates look swapped: the other way round it lies near the site.")
            : refusal;
    }

    private static bool SwappedFits(CoordinateService service, RecordedPosition given)
    {
        if (given.Frame == Frame.SiteGrid) return false;
        ProjectedCoordinate swapped = Projected(service, given with { First = given.Second, Second = given.First });
        return Math.Abs(swapped.EastingMetres - service.Adjustment.ProjectedOrigin.EastingMetres) < FarMetres
            && Math.Abs(swapped.NorthingMetres - service.Adjustment.ProjectedOrigin.NorthingMetres) < FarMetres;
    }

    private static bool IsFinite(GeographicCoordinate point) => double.IsFinite(point.LatitudeDegrees) && double.IsFinite(point.LongitudeDegrees);
}

/// <summary>Points in all frames.</summary>
/// <param name="Revision">Revision of the adjustment used.</param>
/// <param name="Crs">The projected CRS.</param>
/// <param name="Points">The points, in the order given.</param>
public sealed record Conversion(int Revision, ProjectedCrs Crs, IReadOnlyList<ConvertedPoint> Points);

/// <summary>One converted point.</summary>
/// <param name="Given">The point as given.</param>
/// <param name="Where">The point in all frames; null when refused.</param>
/// <param name="Refusal">Why it was refused.</param>
/// <param name="Caution">What to look at although it was converted.</param>
public sealed record ConvertedPoint(RecordedPosition Given, PointInFrames? Where, string? Refusal, string? Caution);

/// <summary>A point in all frames of a site, with what the projection does there.</summary>
/// <param name="Site">Site grid.</param>
/// <param name="Projected">Projected CRS.</param>
/// <param name="Geographic">Geographic, on the datum of the projected CRS.</param>
/// <param name="Distortion">Grid convergence and point scale factor.</param>
public sealed record PointInFrames(SiteCoordinate Site, ProjectedCoordinate Projected, GeographicCoordinate Geographic, GridDistortion Distortion);
