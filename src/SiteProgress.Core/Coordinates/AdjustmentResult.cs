using System.Diagnostics.CodeAnalysis;

namespace SiteProgress.Core.Coordinates;

/// <summary>A fit of the site grid with all that is needed to judge it, or the reason why there is none.</summary>
public sealed record AdjustmentResult
{
    /// <summary>The fit; null when refused.</summary>
    public Adjustment? Adjustment { get; private init; }

    /// <summary>Residuals, errors and warnings of the fit; null when refused.</summary>
    public AdjustmentQuality? Quality { get; private init; }

    /// <summary>Why there is no fit, in words for a surveyor; null when there is one.</summary>
    public string? Refusal { get; private init; }

    /// <summary>Whether there is a fit.</summary>
    [MemberNotNullWhen(true, nameof(Adjustment), nameof(Quality))]
    [MemberNotNullWhen(false, nameof(Refusal))]
    public bool IsFitted => Adjustment is not null;

    internal static AdjustmentResult Fitted(Adjustment adjustment, AdjustmentQuality quality) =>
        new() { Adjustment = adjustment, Quality = quality };

    internal static AdjustmentResult Refused(string reason) => new() { Refusal = reason };
}

/// <summary>How well the control points agree with a fit.</summary>
/// <param name="Residuals">One entry a control point, in the order given.</param>
/// <param name="Redundancy">Observations beyond the number of parameters: 0 means that nothing is checked.</param>
/// <param name="StandardErrorOfUnitWeight">
/// S0 = square root of (sum of weighted squared residuals / redundancy). About 1 when the stated standard deviations are honest;
/// in metres when every standard deviation was given as 1 m. Null without redundancy.
/// </param>
/// <param name="StandardErrors">Standard errors of the parameters scaled by S0; null without redundancy.</param>
/// <param name="RootMeanSquareMetres">Root of the mean squared length of the residual vectors, metres. Not S0: it divides by the number of points.</param>
/// <param name="Warnings">What a surveyor should look at before the fit is adopted; empty when nothing stands out.</param>
public sealed record AdjustmentQuality(
    IReadOnlyList<ControlPointResidual> Residuals, int Redundancy, double? StandardErrorOfUnitWeight,
    AdjustmentStandardErrors? StandardErrors, double RootMeanSquareMetres, IReadOnlyList<AdjustmentWarning> Warnings)
{
    /// <summary>True only where at least one observation is left over to contradict the fit. Two points never check a similarity.</summary>
    public bool IsChecked => Redundancy > 0;
}

/// <summary>What is left between a mark's surveyed position and the fit.</summary>
/// <param name="Name">The mark.</param>
/// <param name="EastMetres">Computed minus surveyed easting, metres.</param>
/// <param name="NorthMetres">Computed minus surveyed northing, metres.</param>
/// <param name="RedundancyNumber">
/// Share of an error in one coordinate of this mark that would show in its residual, 0 to 1. Near 0 the mark is not checked by the others.
/// </param>
public sealed record ControlPointResidual(string Name, double EastMetres, double NorthMetres, double RedundancyNumber)
{
    /// <summary>Length of the residual vector, metres.</summary>
    public double LengthMetres => Math.Sqrt(EastMetres * EastMetres + NorthMetres * NorthMetres);
}

/// <summary>Standard errors (one sigma) of the parameters of a fit.</summary>
/// <param name="Coefficient">Of each coefficient (a and b of a similarity), metres per metre.</param>
/// <param name="Scale">Of the scale, metres per metre.</param>
/// <param name="RotationDegrees">Of the turn, degrees.</param>
/// <param name="TranslationAtOriginMetres">Of the shift in each axis at the fit's own origin, the centroid of the marks: metres.</param>
/// <param name="TranslationAtSiteZeroMetres">Of the shift in each axis at x = y = 0 of the site grid, as textbooks print it: metres.</param>
public sealed record AdjustmentStandardErrors(
    double Coefficient, double Scale, double RotationDegrees, double TranslationAtOriginMetres, double TranslationAtSiteZeroMetres);

/// <summary>One thing to look at before a fit is adopted.</summary>
/// <param name="Kind">Which of the known situations.</param>
/// <param name="Text">The same in words for a surveyor, with the figures.</param>
public sealed record AdjustmentWarning(AdjustmentWarningKind Kind, string Text);

/// <summary>The situations a fit warns of.</summary>
public enum AdjustmentWarningKind
{
    /// <summary>No observation is left to contradict the fit.</summary>
    NotChecked,

    /// <summary>The marks lie on one line or nearly so.</summary>
    MarksInOneLine,

    /// <summary>The marks agree far better when the axes change places.</summary>
    AxesLookSwapped,

    /// <summary>The scale is not that of a site grid in metres.</summary>
    ScaleFarFromOne,

    /// <summary>A mark is hardly checked by the others.</summary>
    MarkHardlyChecked,

    /// <summary>The projected values have the size of latitudes and longitudes.</summary>
    LooksLikeDegrees,

    /// <summary>One mark contradicts the others.</summary>
    MarkContradicts,

    /// <summary>Residuals are larger than the stated standard deviations allow.</summary>
    ResidualsTooLarge,

    /// <summary>Two marks share a name.</summary>
    SameName,
}
