namespace SiteProgress.Core.Coordinates;

/// <summary>Ties the site grid to the projected CRS with each axis free in scale and direction.</summary>
/// <remarks>
/// Weighted least squares of the six-parameter transformation, solved about the weighted centroid, where easting and northing separate into
/// two systems with the same 2 by 2 normal matrix. Ghilani, Adjustment Computations, chapter 18. It follows distorted old grids, and it
/// follows blunders as readily: a similarity comes first.
/// </remarks>
public static class AffineFit
{
    private const int ParameterCount = 6;
    private const int LeastCount = 3;

    /// <summary>Marks whose spread is narrower than this share of its length cannot carry two axes.</summary>
    private const double NarrowestShape = 1e-3;

    /// <summary>Fits the site grid to the projected CRS.</summary>
    /// <param name="points">At least three marks, not in one line, metres in both frames; four or more check each other.</param>
    /// <param name="revision">The number this revision of the fit will carry.</param>
    /// <returns>The fit with residuals, standard errors and warnings, or the reason why there is none.</returns>
    public static AdjustmentResult Solve(IReadOnlyList<ControlPoint> points, int revision = 1)
    {
        ArgumentNullException.ThrowIfNull(points);
        if (ReasonAgainst(points) is { } reason) return AdjustmentResult.Refused(reason);
        var sums = CentredSums.Of(points);
        var adjustment = Fit(sums, revision);
        return AdjustmentResult.Fitted(adjustment, FitStatistics.Describe(
            points, adjustment, ParameterCount, [.. points.Select(p => LeverageOf(p, sums))],
            s0 => StandardErrors(sums, adjustment, s0),
            others => ReasonAgainst(others) is null ? Fit(CentredSums.Of(others), revision) : null,
            withOtherAxes: null));
    }

    private static string? ReasonAgainst(IReadOnlyList<ControlPoint> points) =>
        ControlPointChecks.ReasonAgainst(points, LeastCount) is { } reason ? reason
        : CentredSums.Of(points).ShapeRatio < NarrowestShape
            ? "The control points lie in one line; an affine fit needs marks on both sides of it."
            : null;

    private static Adjustment Fit(CentredSums sums, int revision)
    {
        var determinant = Determinant(sums);
        return new(
            AdjustmentKind.Affine, revision,
            (sums.YY * sums.XEast - sums.XY * sums.YEast) / determinant, (sums.XX * sums.YEast - sums.XY * sums.XEast) / determinant,
            (sums.YY * sums.XNorth - sums.XY * sums.YNorth) / determinant, (sums.XX * sums.YNorth - sums.XY * sums.XNorth) / determinant,
            sums.Site, sums.Projected);
    }

    private static Leverage LeverageOf(ControlPoint point, CentredSums sums)
    {
        double dx = point.Site.XMetres - sums.Site.XMetres, dy = point.Site.YMetres - sums.Site.YMetres;
        var leverage = CentredSums.WeightOf(point)
            * (1 / sums.Weight + (sums.YY * dx * dx - 2 * sums.XY * dx * dy + sums.XX * dy * dy) / Determinant(sums));
        return new(leverage, leverage);
    }

    private static AdjustmentStandardErrors StandardErrors(CentredSums sums, Adjustment adjustment, double s0)
    {
        var determinant = Determinant(sums);
        double alongX = s0 * Math.Sqrt(sums.YY / determinant), alongY = s0 * Math.Sqrt(sums.XX / determinant), atOrigin = s0 / Math.Sqrt(sums.Weight);
        double x0 = sums.Site.XMetres, y0 = sums.Site.YMetres;
        var atZero = Math.Sqrt(atOrigin * atOrigin
            + s0 * s0 * (sums.YY * x0 * x0 - 2 * sums.XY * x0 * y0 + sums.XX * y0 * y0) / determinant);
        var worse = Math.Max(alongX, alongY);
        return new(worse, worse, worse / adjustment.Scale * 180 / Math.PI, atOrigin, atZero);
    }

    private static double Determinant(CentredSums sums) => sums.XX * sums.YY - sums.XY * sums.XY;
}
