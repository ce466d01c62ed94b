using System.Globalization;

namespace SiteProgress.Core.Coordinates;

/// <summary>Which distances the site grid was drawn in, judged by the scale that its control points gave.</summary>
public enum SiteDistances
{
    /// <summary>The scale is 1 within its error: the drawings are in grid distances of the projected CRS.</summary>
    Grid,

    /// <summary>The scale is the CRS's point scale factor within its error: the drawings are in distances on the ground.</summary>
    Ground,

    /// <summary>The scale is both within its error; the marks are too near each other or the CRS's scale is too near 1 to tell.</summary>
    EitherWithinError,

    /// <summary>The scale is neither within its error: ground and grid distances may be mixed, or a mark is wrong.</summary>
    Neither,

    /// <summary>The fit is not checked, so its scale has no known error.</summary>
    NotKnown,
}

/// <summary>The scale of a fit against what the projection does to distances at the site.</summary>
/// <param name="Distances">Which distances the scale fits.</param>
/// <param name="Scale">The scale of the fit, metres of projected grid for one metre of site grid.</param>
/// <param name="PointScaleFactor">The projection's scale at the middle of the marks, on the ellipsoid.</param>
/// <param name="Text">The same in words for a surveyor.</param>
public sealed record SiteScale(SiteDistances Distances, double Scale, double PointScaleFactor, string Text)
{
    /// <summary>Three standard errors, and never less than what 60 m of height above the ellipsoid do to a distance.</summary>
    private const double HeightAllowance = 1e-5;

    /// <summary>Compares a fit's scale with the projection's own scale at the site.</summary>
    public static SiteScale Judge(AdjustmentResult fit, ProjectedCrs crs)
    {
        ArgumentNullException.ThrowIfNull(fit);
        ArgumentNullException.ThrowIfNull(crs);
        if (!fit.IsFitted) throw new ArgumentException("A refused fit has no scale.", nameof(fit));
        var middle = new CoordinateService(fit.Adjustment, crs).ToGeographic(fit.Adjustment.SiteOrigin);
        double scale = fit.Adjustment.Scale, factor = GridDistortion.At(crs, middle).PointScaleFactor;
        if (fit.Quality.StandardErrors is not { } errors || !fit.Quality.IsChecked)
            return new(SiteDistances.NotKnown, scale, factor, "The fit is not checked, so its scale cannot be judged.");
        var allowance = 3 * errors.Scale + HeightAllowance;
        bool isGrid = Math.Abs(scale - 1) <= allowance, isGround = Math.Abs(scale - factor) <= allowance;
        var found = isGrid && isGround ? SiteDistances.EitherWithinError : isGrid ? SiteDistances.Grid : isGround ? SiteDistances.Ground : SiteDistances.Neither;
        return new(found, scale, factor, Describe(found, scale, factor, allowance));
    }

    private static string Describe(SiteDistances found, double scale, double factor, double allowance) => found switch
    {
        SiteDistances.Grid => Words($"The scale {scale:0.000000} is 1 within its error: the site grid is drawn in grid distances."),
        SiteDistances.Ground => Words($"The scale {scale:0.000000} is the projection's scale factor {factor:0.000000} within its error: the site grid is drawn in ground distances."),
        SiteDistances.EitherWithinError => Words($"The scale {scale:0.000000} fits both grid distances and ground distances within its error of {allowance:0.000000}."),
        _ => Words($"The scale {scale:0.000000} is neither 1 (grid distances) nor {factor:0.000000} (ground distances) within its error of {allowance:0.000000}: ground and grid distances may be mixed, or a mark is wrong."),
    };

    private static string Words(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
