namespace SiteProgress.Core.Coordinates;

/// <summary>Ties the site grid to the projected CRS by shift and turn alone, the scale held fixed.</summary>
/// <remarks>
/// Weighted least squares in three parameters. About the weighted centroid the best turn is that of the similarity, whatever the scale
/// (the orthogonal Procrustes problem in the plane); only the scale is put in by hand. For a site whose drawings are known to be in grid
/// distances (scale 1) or in ground distances (the point scale factor of the CRS).
/// </remarks>
public static class RigidFit
{
    private const int ParameterCount = 3;
    private const int LeastCount = 2;

    /// <summary>Fits the site grid to the projected CRS.</summary>
    /// <param name="points">At least two marks, metres in both frames.</param>
    /// <param name="scale">Metres of projected grid for one metre of site grid, held fixed.</param>
    /// <param name="axes">How the site's axes lie.</param>
    /// <param name="revision">The number this revision of the fit will carry.</param>
    /// <returns>The fit with residuals, standard errors and warnings, or the reason why there is none.</returns>
    public static AdjustmentResult Solve(
        IReadOnlyList<ControlPoint> points, double scale = 1, SiteAxes axes = SiteAxes.RightHanded, int revision = 1)
    {
        ArgumentNullException.ThrowIfNull(points);
        if (!(scale > 0) || !double.IsFinite(scale)) return AdjustmentResult.Refused("The fixed scale must be a number above 0.");
        if (ControlPointChecks.ReasonAgainst(points, LeastCount) is { } reason) return AdjustmentResult.Refused(reason);
        var sums = CentredSums.Of(points);
        var adjustment = Fit(sums, scale, axes, revision);
        var other = Fit(sums, scale, axes == SiteAxes.RightHanded ? SiteAxes.LeftHanded : SiteAxes.RightHanded, revision);
        return AdjustmentResult.Fitted(adjustment, FitStatistics.Describe(
            points, adjustment, ParameterCount, [.. points.Select(p => LeverageOf(p, adjustment, sums))],
            s0 => StandardErrors(sums, scale, s0),
            others => ControlPointChecks.ReasonAgainst(others, LeastCount) is null ? Fit(CentredSums.Of(others), scale, axes, revision) : null,
            other));
    }

    private static Adjustment Fit(CentredSums sums, double scale, SiteAxes axes, int revision)
    {
        var free = SimilarityFit.Fit(sums, axes, revision);
        var factor = scale / free.Scale;
        return free with
        {
            Kind = AdjustmentKind.Rigid,
            EastPerX = free.EastPerX * factor, EastPerY = free.EastPerY * factor,
            NorthPerX = free.NorthPerX * factor, NorthPerY = free.NorthPerY * factor,
        };
    }

    private static Leverage LeverageOf(ControlPoint point, Adjustment adjustment, CentredSums sums)
    {
        // A small turn moves a mark across its own arm from the centroid: easting by the northing of the arm and the other way round.
        var there = adjustment.Forward(point.Site);
        double east = there.EastingMetres - sums.Projected.EastingMetres, north = there.NorthingMetres - sums.Projected.NorthingMetres;
        var weight = CentredSums.WeightOf(point);
        var arms = sums.SquaredRadius * adjustment.Scale * adjustment.Scale;
        return new(weight * (1 / sums.Weight + north * north / arms), weight * (1 / sums.Weight + east * east / arms));
    }

    private static AdjustmentStandardErrors StandardErrors(CentredSums sums, double scale, double s0)
    {
        double turn = s0 / (scale * Math.Sqrt(sums.SquaredRadius)), atOrigin = s0 / Math.Sqrt(sums.Weight);
        double x0 = sums.Site.XMetres, y0 = sums.Site.YMetres;
        // The larger of the two axes: a turn about the centroid moves the grid's zero across its arm.
        var atZero = Math.Sqrt(atOrigin * atOrigin + turn * turn * scale * scale * (x0 * x0 + y0 * y0));
        return new(turn * scale, 0, turn * 180 / Math.PI, atOrigin, atZero);
    }
}
