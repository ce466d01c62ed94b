using System.Globalization;

namespace SiteProgress.Core.Coordinates;

/// <summary>Reasons why a set of control points cannot carry a fit at all.</summary>
internal static class ControlPointChecks
{
    public static string? ReasonAgainst(IReadOnlyList<ControlPoint> points, int leastCount)
    {
        foreach (var point in points)
        {
            if (!IsFinite(point)) return $"Control point {point.Name} has a coordinate that is not a number.";
            if (!(point.StandardDeviationMetres > 0) || !double.IsFinite(point.StandardDeviationMetres))
                return string.Create(CultureInfo.InvariantCulture, $"Control point {point.Name} has the standard deviation {point.StandardDeviationMetres} m; expected a value above 0.");
        }

        if (points.Count < leastCount)
            return $"{points.Count} control point{(points.Count == 1 ? "" : "s")} given; this fit needs at least {leastCount}, and one more to be checked.";
        if (Extent(points, p => p.Site.XMetres, p => p.Site.YMetres) < 1e-3)
            return "All control points lie in one place of the site grid; the turn of the grid cannot be found from them.";
        if (Extent(points, p => p.Projected.EastingMetres, p => p.Projected.NorthingMetres) < 1e-3)
            return "All control points lie in one place of the projected CRS; the turn of the grid cannot be found from them.";
        return null;
    }

    /// <summary>The longer side of the box around the marks, in the unit of the values.</summary>
    private static double Extent(IReadOnlyList<ControlPoint> points, Func<ControlPoint, double> first, Func<ControlPoint, double> second) =>
        Math.Max(points.Max(first) - points.Min(first), points.Max(second) - points.Min(second));

    private static bool IsFinite(ControlPoint point) =>
        double.IsFinite(point.Site.XMetres) && double.IsFinite(point.Site.YMetres)
        && double.IsFinite(point.Projected.EastingMetres) && double.IsFinite(point.Projected.NorthingMetres);
}
