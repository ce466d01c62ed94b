namespace SiteProgress.Core.Coordinates;

/// <summary>Ties the site grid to the projected CRS by shift, turn and one scale, from marks known in both.</summary>
/// <remarks>
/// Weighted least squares of the plane similarity (two-dimensional conformal) transformation, four parameters, weights 1/sigma squared,
/// solved about the weighted centroid, where the normal equations are diagonal. Ghilani, Adjustment Computations, chapter 18.
/// Holds for sites of a few kilometres, where the projection's own scale changes by less than the survey's error.
/// </remarks>
public static class SimilarityFit
{
    private const int ParameterCount = 4;
    private const int LeastCount = 2;

    /// <summary>Fits the site grid to the projected CRS.</summary>
    /// <param name="points">At least two marks, metres in both frames; three or more check each other.</param>
    /// <param name="axes">How the site's axes lie; left-handed where X is north and Y is east.</param>
    /// <param name="revision">The number this revision of the fit will carry.</param>
    /// <returns>The fit with residuals, standard errors and warnings, or the reason why there is none.</returns>
    public static AdjustmentResult Solve(IReadOnlyList<ControlPoint> points, SiteAxes axes = SiteAxes.RightHanded, int revision = 1)
    {
        ArgumentNullException.ThrowIfNull(points);
        if (ControlPointChecks.ReasonAgainst(points, LeastCount) is { } reason) return AdjustmentResult.Refused(reason);
        var sums = CentredSums.Of(points);
        var adjustment = Fit(sums, axes, revision);
        var other = Fit(sums, axes == SiteAxes.RightHanded ? SiteAxes.LeftHanded : SiteAxes.RightHanded, revision);
        return AdjustmentResult.Fitted(adjustment, FitStatistics.Describe(
            points, adjustment, ParameterCount, [.. points.Select(p => LeverageOf(p, sums))],
            s0 => StandardErrors(sums, adjustment, s0),
            others => ControlPointChecks.ReasonAgainst(others, LeastCount) is null ? Fit(CentredSums.Of(others), axes, revision) : null,
            other));
    }

    internal static Adjustment Fit(CentredSums sums, SiteAxes axes, int revision)
    {
        if (axes == SiteAxes.RightHanded)
        {
            double a = (sums.XEast + sums.YNorth) / sums.SquaredRadius, b = (sums.XNorth - sums.YEast) / sums.SquaredRadius;
            return new(AdjustmentKind.Similarity, revision, a, -b, b, a, sums.Site, sums.Projected);
        }

        // Left-handed axes are the right-handed case with the two site axes exchanged.
        double c = (sums.YEast + sums.XNorth) / sums.SquaredRadius, d = (sums.YNorth - sums.XEast) / sums.SquaredRadius;
        return new(AdjustmentKind.Similarity, revision, -d, c, c, d, sums.Site, sums.Projected);
    }

    private static Leverage LeverageOf(ControlPoint point, CentredSums sums)
    {
        double dx = point.Site.XMetres - sums.Site.XMetres, dy = point.Site.YMetres - sums.Site.YMetres;
        var leverage = CentredSums.WeightOf(point) * (1 / sums.Weight + (dx * dx + dy * dy) / sums.SquaredRadius);
        return new(leverage, leverage);
    }

    private static AdjustmentStandardErrors StandardErrors(CentredSums sums, Adjustment adjustment, double s0)
    {
        var coefficient = s0 / Math.Sqrt(sums.SquaredRadius);
        var atOrigin = s0 / Math.Sqrt(sums.Weight);
        double x0 = sums.Site.XMetres, y0 = sums.Site.YMetres;
        var atZero = Math.Sqrt(atOrigin * atOrigin + coefficient * coefficient * (x0 * x0 + y0 * y0));
        // Scale and turn are the length and direction of (a, b), whose two components are independent and equally good.
        return new(coefficient, coefficient, coefficient / adjustment.Scale * 180 / Math.PI, atOrigin, atZero);
    }
}
