using System.Globalization;
using System.Text.Json.Nodes;
using SiteProgress.Core.Coordinates;

namespace SiteProgress.Jobs.Map;

/// <summary>The control points of the adjustment in force for the map: each mark where it was surveyed, and the residual the adjustment leaves there.</summary>
internal static class ControlDrawing
{
    private const double LongestDrawnMetres = 60;

    /// <summary>
    /// A feature <c>control</c> for each mark, named with the mark and the length of its residual, and a feature <c>residual</c> for each line,
    /// which runs from the surveyed mark towards the computed one.
    /// </summary>
    /// <param name="points">The marks the adjustment rests on.</param>
    /// <param name="service">The way between the frames by that adjustment.</param>
    /// <param name="times">How many times longer than the ground the residuals are drawn.</param>
    public static IEnumerable<JsonObject> Features(IReadOnlyList<ControlPoint> points, CoordinateService service, double times)
    {
        foreach (ControlPoint point in points)
        {
            ProjectedCoordinate residual = Residual(point, service);
            string length = (Length(residual) * 1000).ToString("0.0", CultureInfo.InvariantCulture);
            yield return MapFeature.Of("control", $"{point.Name}, {length} mm", new JsonObject { ["type"] = "Point", ["coordinates"] = At(point.Projected, service) });
            ProjectedCoordinate end = new(
                point.Projected.EastingMetres + (residual.EastingMetres * times), point.Projected.NorthingMetres + (residual.NorthingMetres * times));
            yield return MapFeature.Of("residual", null, new JsonObject
            {
                ["type"] = "LineString",
                ["coordinates"] = new JsonArray(At(point.Projected, service), At(end, service)),
            });
        }
    }

    /// <summary>How many times longer than the ground the residuals are drawn: 1, 2 or 5 times a power of ten, so that the longest stays under 60 m.</summary>
    public static double TimesTooLong(IReadOnlyList<ControlPoint> points, CoordinateService service)
    {
        double longest = points.Select(point => Length(Residual(point, service))).DefaultIfEmpty().Max();
        if (longest < 1e-6) return 1;
        return Math.Max(1, RoundFactor.NotAbove(LongestDrawnMetres / longest));
    }

    private static ProjectedCoordinate Residual(ControlPoint point, CoordinateService service)
    {
        ProjectedCoordinate computed = service.ToProjected(point.Site);
        return new ProjectedCoordinate(computed.EastingMetres - point.Projected.EastingMetres, computed.NorthingMetres - point.Projected.NorthingMetres);
    }

    private static double Length(ProjectedCoordinate vector)
        => Math.Sqrt((vector.EastingMetres * vector.EastingMetres) + (vector.NorthingMetres * vector.NorthingMetres));

    private static JsonArray At(ProjectedCoordinate point, CoordinateService service)
    {
        GeographicCoordinate at = service.ToGeographic(point);
        return new JsonArray(at.LongitudeDegrees, at.LatitudeDegrees);
    }
}
