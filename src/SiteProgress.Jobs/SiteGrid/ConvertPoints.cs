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

    /// <summary>Converts points between the site's own frames.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="points">Points in any of the three frames: metres, or degrees for geographic ones.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>The points in the order given; null before an adjustment is adopted.</returns>
    /// <exception cref="ArgumentException">There are more points than one call takes.</exception>
    [Needs(Right.See)]
    public Task<Conversion?> RunAsync(Permit permit, IReadOnlyList<RecordedPosition> points, CancellationToken cancellation)
        => WithDatumAsync(permit, points, null, false, cancellation);

    /// <summary>Converts points, and shows them on another datum as well.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="points">Points in any of the three frames; geographic ones may be on the other datum.</param>
    /// <param name="shift">EPSG code of the published shift that leads there; null for none.</param>
    /// <param name="givenOnOther">True where geographic points are given on the other datum.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>The points in the order given, or why the shift cannot be used; null before an adjustment is adopted.</returns>
    /// <exception cref="ArgumentException">There are more points than one call takes.</exception>
    [Needs(Right.See)]
    public async Task<Conversion?> WithDatumAsync(
        Permit permit, IReadOnlyList<RecordedPosition> points, int? shift, bool givenOnOther, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        ArgumentNullException.ThrowIfNull(points);
        if (points.Count > MostPoints) throw new ArgumentException($"{points.Count} points were given; one call takes {MostPoints}.", nameof(points));
        if (await SiteAdjustments.ReadAsync(store, permit.Site, cancellation) is not [.., { } current]) return null;
        CoordinateService service = SiteAdjustments.Service(current.Body);
        DatumLink? link = null;
        if (shift is not null || givenOnOther)
        {
            (link, string? refusal) = SiteDatums.Find(service, shift);
            if (link is null) return new Conversion(current.Body.Adjustment.Revision, service.Crs, [.. points.Select(point => new ConvertedPoint(point, null, refusal, null))], null);
        }

        return new Conversion(current.Body.Adjustment.Revision, service.Crs, Convert(service, points, link, givenOnOther), link);
    }

    private static ConvertedPoint[] Convert(CoordinateService service, IReadOnlyList<RecordedPosition> points, DatumLink? link, bool givenOnOther)
    {
        RecordedPosition[] own = [.. points];
        if (givenOnOther)
        {
            GeographicCoordinate[] shifted = Array.ConvertAll(own, point => new GeographicCoordinate(point.First, point.Second));
            link!.ToSite(shifted, shifted);
            for (int index = 0; index < own.Length; index++)
                if (own[index].Frame == Frame.Geographic) own[index] = own[index] with { First = shifted[index].LatitudeDegrees, Second = shifted[index].LongitudeDegrees };
        }

        ProjectedCoordinate[] projected = Array.ConvertAll(own, point => Projected(service, point));
        GeographicCoordinate[] geographic = new GeographicCoordinate[own.Length];
        SiteCoordinate[] site = new SiteCoordinate[own.Length];
        service.ProjectedToGeographic(projected, geographic);
        service.ProjectedToSite(projected, site);
        for (int index = 0; index < own.Length; index++)
        {
            // What was typed comes back as typed, not after a round trip.
            if (own[index].Frame == Frame.Geographic) geographic[index] = new GeographicCoordinate(own[index].First, own[index].Second);
            if (own[index].Frame == Frame.SiteGrid) site[index] = new SiteCoordinate(own[index].First, own[index].Second);
        }

        GeographicCoordinate[] other = new GeographicCoordinate[link is null ? 0 : own.Length];
        link?.FromSite(geographic, other);
        return [.. own.Select((point, index) =>
        {
            GeographicCoordinate? elsewhere = link is null ? null
                : givenOnOther && point.Frame == Frame.Geographic ? new GeographicCoordinate(points[index].First, points[index].Second) : other[index];
            return Describe(service, points[index], point, new PointInFrames(site[index], projected[index], geographic[index], default) { Other = elsewhere }, link);
        })];
    }

    private static ProjectedCoordinate Projected(CoordinateService service, RecordedPosition point) => point.Frame switch
    {
        Frame.SiteGrid => service.ToProjected(new SiteCoordinate(point.First, point.Second)),
        Frame.ProjectedCrs => new ProjectedCoordinate(point.First, point.Second),
        Frame.Geographic => service.ToProjected(new GeographicCoordinate(point.First, point.Second)),
        _ => throw new ArgumentOutOfRangeException(nameof(point), point.Frame, "There are three frames."),
    };

    private static ConvertedPoint Describe(CoordinateService service, RecordedPosition given, RecordedPosition own, PointInFrames where, DatumLink? link)
    {
        if (WhyNot(service, own, where, link) is { } refusal) return new ConvertedPoint(given, null, refusal, null);
        double distance = Math.Sqrt(
            Math.Pow(where.Projected.EastingMetres - service.Adjustment.ProjectedOrigin.EastingMetres, 2)
            + Math.Pow(where.Projected.NorthingMetres - service.Adjustment.ProjectedOrigin.NorthingMetres, 2));
        string? caution = distance <= ControlPointSuspicion.ReachMetres ? null
            : string.Create(CultureInfo.InvariantCulture, $"The point lies {distance / 1000:0.0} km from the site's marks; the site grid holds for a few kilometres around them.{After(LooksLike(service, own))}");
        return new ConvertedPoint(given, where with { Distortion = service.DistortionAt(where.Geographic) }, null, caution);
    }

    /// <summary>Null, or why the point has no place in the other frames.</summary>
    private static string? WhyNot(CoordinateService service, RecordedPosition own, PointInFrames where, DatumLink? link)
    {
        double? outside = !IsFinite(where.Geographic) || !double.IsFinite(where.Projected.EastingMetres) || !double.IsFinite(where.Projected.NorthingMetres)
            ? null
            : service.Crs.AreaOfUse?.DistanceOutsideMetres(where.Geographic) ?? 0;
        double outsideShift = link is null || outside != 0 ? 0 : link.Shift.Area.DistanceOutsideMetres(where.Geographic);
        if (outside == 0)
        {
            return outsideShift == 0 ? null
                : string.Create(CultureInfo.InvariantCulture, $"The point lies {outsideShift / 1000:0.0} km outside the area in which {link!.Shift.Name} may be used.");
        }

        string refusal = outside is { } metres && double.IsFinite(metres)
            ? string.Create(CultureInfo.InvariantCulture, $"The point lies {metres / 1000:0.0} km outside the area in which {SiteAdjustments.Words(service.Crs)} may be used.")
            : $"The point cannot be projected with {SiteAdjustments.Words(service.Crs)}.";
        return refusal + After(LooksLike(service, own));
    }

    /// <summary>What a point far from the site looks like; null where it looks like nothing known.</summary>
    private static string? LooksLike(CoordinateService service, RecordedPosition own)
    {
        GeographicCoordinate expected = service.ToGeographic(service.Adjustment.SiteOrigin);
        return own.Frame switch
        {
            Frame.ProjectedCrs => FrameSuspicion.Explain(service.Crs, new ProjectedCoordinate(own.First, own.Second), expected, ControlPointSuspicion.ReachMetres),
            Frame.Geographic => FrameSuspicion.Explain(service.Crs, new GeographicCoordinate(own.First, own.Second), expected, ControlPointSuspicion.ReachMetres),
            _ => null,
        };
    }

    private static string After(string? sentence) => sentence is null ? "" : " " + sentence;

    private static bool IsFinite(GeographicCoordinate point) => double.IsFinite(point.LatitudeDegrees) && double.IsFinite(point.LongitudeDegrees);
}

/// <summary>Points in all frames.</summary>
/// <param name="Revision">Revision of the adjustment used.</param>
/// <param name="Crs">The projected CRS.</param>
/// <param name="Points">The points, in the order given.</param>
/// <param name="Link">The published shift by which they are shown on another datum; null for none.</param>
public sealed record Conversion(int Revision, ProjectedCrs Crs, IReadOnlyList<ConvertedPoint> Points, DatumLink? Link);

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
public sealed record PointInFrames(SiteCoordinate Site, ProjectedCoordinate Projected, GeographicCoordinate Geographic, GridDistortion Distortion)
{
    /// <summary>Geographic, on the other datum of a named shift; null where none was named.</summary>
    public GeographicCoordinate? Other { get; init; }
}
