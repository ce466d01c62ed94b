namespace SiteProgress.Core.Coordinates;

/// <summary>The one place that chooses the kind of fit, so that a proposal, its adoption and a later look at it are the same computation.</summary>
public static class AdjustmentFit
{
    /// <summary>Fits the site grid to the projected CRS.</summary>
    /// <param name="kind">How freely the grid may lie.</param>
    /// <param name="points">The control points, metres in both frames.</param>
    /// <param name="axes">How the site's axes lie; an affine fit finds that out by itself.</param>
    /// <param name="fixedScale">Scale of a rigid fit, metres of projected grid for one metre of site grid; not used by the others.</param>
    /// <param name="revision">The number this revision of the fit will carry.</param>
    /// <returns>The fit, or the reason why there is none.</returns>
    public static AdjustmentResult Solve(AdjustmentKind kind, IReadOnlyList<ControlPoint> points, SiteAxes axes, double fixedScale, int revision) => kind switch
    {
        AdjustmentKind.Similarity => SimilarityFit.Solve(points, axes, revision),
        AdjustmentKind.Rigid => RigidFit.Solve(points, fixedScale, axes, revision),
        AdjustmentKind.Affine => AffineFit.Solve(points, revision),
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "There are three kinds of fit."),
    };
}
