using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Exchange;
using SiteProgress.Exchange.ControlPoints;

namespace SiteProgress.Jobs.SiteGrid;

/// <summary>What a surveyor proposes: a list of control points, and how the site grid is to be fitted to them.</summary>
/// <param name="Marks">The list as text, with a header.</param>
/// <param name="Kind">How freely the grid may lie.</param>
/// <param name="FixedScale">Scale of a rigid fit; not used by the others.</param>
/// <param name="Axes">How the site's axes lie.</param>
/// <param name="StandardDeviationMetres">Standard deviation of one coordinate where a line gives none, metres.</param>
/// <param name="OfferedCrs">Sequence of the record that offers the projected CRS to be used; null for the one in force.</param>
public sealed record AdjustmentProposal(
    string Marks, AdjustmentKind Kind, double FixedScale, SiteAxes Axes, double StandardDeviationMetres, long? OfferedCrs);

/// <summary>A proposal worked out: the same for looking at it and for adopting it.</summary>
/// <param name="Settings">Settings of the site.</param>
/// <param name="InForce">Revision of the adjustment in force.</param>
/// <param name="Reading">The list as read, with its problems by line.</param>
/// <param name="Crs">The projected CRS it is fitted in.</param>
/// <param name="Refusal">Why there is no fit; null when there is one, or when lines of the list cannot be read.</param>
/// <param name="Body">The adjustment with its control points; null without a fit. Its reason is still open.</param>
/// <param name="Quality">Residuals, errors and warnings of the fit.</param>
/// <param name="Scale">Which distances the scale fits.</param>
/// <param name="CoverWarning">What to say where the marks do not surround the design.</param>
/// <param name="Suspicions">What single marks that cannot be right look like.</param>
public sealed record WorkedOutProposal(
    SiteSettings Settings, int InForce, TableReading<SurveyedMark> Reading, ProjectedCrs Crs, string? Refusal,
    AdjustmentBody? Body, AdjustmentQuality? Quality, SiteScale? Scale, string? CoverWarning, IReadOnlyList<string> Suspicions)
{
    /// <summary>What the surveyor must have looked at before adopting it.</summary>
    public IReadOnlyList<string> Warnings =>
    [
        .. Suspicions,
        .. Quality?.Warnings.Select(warning => warning.Text) ?? [],
        .. new[] { CoverWarning, Scale?.Distances == SiteDistances.Neither ? Scale.Text : null }.OfType<string>(),
    ];

    /// <summary>What adopting it changes, where that was asked for.</summary>
    public AdjustmentEffect? Effect { get; init; }
}
