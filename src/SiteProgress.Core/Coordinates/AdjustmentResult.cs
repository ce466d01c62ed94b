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
/// <param name="GlobalTest">Whether the residuals fit the stated standard deviations; null without redundancy.</param>
/// <param name="Predictions">
/// For each mark, where the fit of the other marks puts it: what an independent check at that mark would have shown. Empty where the others
/// are too few to fit without it.
/// </param>
/// <param name="Warnings">What a surveyor should look at before the fit is adopted; empty when nothing stands out.</param>
public sealed record AdjustmentQuality(
    IReadOnlyList<ControlPointResidual> Residuals, int Redundancy, double? StandardErrorOfUnitWeight,
    AdjustmentStandardErrors? StandardErrors, double RootMeanSquareMetres, GlobalTest? GlobalTest,
    IReadOnlyList<ControlPointPrediction> Predictions, IReadOnlyList<AdjustmentWarning> Warnings)
{
    /// <summary>True only where a third mark is there to contradict the fit. Two marks never check it, a fixed scale or not.</summary>
    public bool IsChecked => Redundancy > 0 && Residuals.Count > 2;

    /// <summary>The mark that contradicts the others most, when the w-test rejects it; null when none is rejected.</summary>
    public string? SuspectMark => Residuals
        .Where(r => r.LargestW > GlobalTest.LargestAcceptedW)
        .MaxBy(r => r.LargestW)?.Name;
}

/// <summary>The chi-squared test of all residuals together against the stated standard deviations.</summary>
/// <param name="Statistic">Redundancy times S0 squared.</param>
/// <param name="LowerLimit">2.5 % point of chi-squared with that redundancy: below it the stated standard deviations are too large.</param>
/// <param name="UpperLimit">97.5 % point: above it the residuals are larger than the stated standard deviations allow.</param>
/// <remarks>Ghilani, Adjustment Computations, chapter 16 (goodness of fit) and chapter 21 (w-test, after Baarda 1968).</remarks>
public sealed record GlobalTest(double Statistic, double LowerLimit, double UpperLimit)
{
    /// <summary>Baarda's critical value of the w-test at a significance of one in a thousand.</summary>
    public static readonly double LargestAcceptedW = 3.29;

    /// <summary>Whether the residuals fit the stated standard deviations at 95 %.</summary>
    public bool IsPassed => Statistic >= LowerLimit && Statistic <= UpperLimit;
}

/// <summary>Where the fit of all other marks puts a mark, against where it was surveyed.</summary>
/// <param name="Name">The mark.</param>
/// <param name="EastMetres">Predicted minus surveyed easting, metres.</param>
/// <param name="NorthMetres">Predicted minus surveyed northing, metres.</param>
public sealed record ControlPointPrediction(string Name, double EastMetres, double NorthMetres)
{
    /// <summary>Length of the difference, metres.</summary>
    public double LengthMetres => Math.Sqrt(EastMetres * EastMetres + NorthMetres * NorthMetres);
}

/// <summary>What is left between a mark's surveyed position and the fit.</summary>
/// <param name="Name">The mark.</param>
/// <param name="EastMetres">Computed minus surveyed easting, metres.</param>
/// <param name="NorthMetres">Computed minus surveyed northing, metres.</param>
/// <param name="RedundancyNumber">
/// Share of an error in one coordinate of this mark that would show in its residual, 0 to 1 (mean of the two coordinates where they differ).
/// Near 0 the mark is not checked by the others.
/// </param>
/// <param name="WEast">Baarda's w of the easting: residual over its own standard deviation; null where the mark is not checked at all.</param>
/// <param name="WNorth">The same of the northing.</param>
public sealed record ControlPointResidual(
    string Name, double EastMetres, double NorthMetres, double RedundancyNumber, double? WEast = null, double? WNorth = null)
{
    /// <summary>The larger of the two w values without its sign; 0 where there is none.</summary>
    public double LargestW => Math.Max(Math.Abs(WEast ?? 0), Math.Abs(WNorth ?? 0));

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

    /// <summary>Two marks lie at one place, so that they check no more than one.</summary>
    SamePlace,
}
