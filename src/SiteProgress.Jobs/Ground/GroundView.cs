using NodaTime;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Ground;
using SiteProgress.Core.Piles;

namespace SiteProgress.Jobs.Ground;

/// <summary>What is asked of the improved ground.</summary>
/// <param name="ShareRatio">Share of the design's a_s below which a place is weak.</param>
/// <param name="SquareMetres">Side of the squares on which surveys are compared, metres.</param>
/// <param name="StepMetres">Height of the steps in which blow counts stand together, metres.</param>
/// <param name="Before">Key of the earlier survey; null for the earliest.</param>
/// <param name="After">Key of the later survey; null for the latest.</param>
/// <param name="UnitWeight">Submerged unit weight of the ground, kN/m³; null where no N is to be expected.</param>
/// <param name="FinesPercent">Fines below 75 µm, percent; null where no N is to be expected.</param>
/// <param name="Around">Pile around which the ground is drawn; null for the weakest.</param>
public sealed record GroundRequest(
    double ShareRatio = GroundRequest.UsualShareRatio, double SquareMetres = GroundRequest.UsualSquareMetres, double StepMetres = GroundRequest.UsualStepMetres,
    string? Before = null, string? After = null, double? UnitWeight = null, double? FinesPercent = null, string? Around = null)
{
    /// <summary>Five per cent under the design is looked at. (Common practice, no source.)</summary>
    public const double UsualShareRatio = 0.95;

    /// <summary>Side of a square in which a few soundings of a usual raster fall. (Common practice, no source.)</summary>
    public const double UsualSquareMetres = 5;

    /// <summary>Tests are a metre or two apart in depth. (Common practice, no source.)</summary>
    public const double UsualStepMetres = 2;
}

/// <summary>The improved ground of a site.</summary>
/// <param name="RecordSequence">The last record it follows from.</param>
/// <param name="TimeZone">Time zone of the site.</param>
/// <param name="Settings">Settings in force.</param>
/// <param name="Replacement">As-built replacement ratio.</param>
/// <param name="WithoutOutline">Zones whose outline the settings do not hold: their piles have no area.</param>
/// <param name="Drawn">The weak pile that is drawn, and the ground around it; null where there is none.</param>
/// <param name="Surveys">Seabed surveys, the earliest first.</param>
/// <param name="Heave">Heave between two of them; null where there are not two.</param>
/// <param name="Blows">Penetration tests before and after.</param>
public sealed record GroundView(
    long RecordSequence, string TimeZone, SiteSettings Settings, ReplacementReview Replacement, IReadOnlyList<string> WithoutOutline, GroundAround? Drawn,
    IReadOnlyList<SurveyName> Surveys, HeaveView? Heave, BlowsView Blows);

/// <summary>The ground around one pile.</summary>
/// <param name="Pile">The pile.</param>
/// <param name="Others">Built piles around it, without it.</param>
/// <param name="Open">Design positions around it where nothing stands.</param>
public sealed record GroundAround(PileReplacement Pile, IReadOnlyList<PileReplacement> Others, IReadOnlyList<SiteCoordinate> Open);

/// <summary>A survey by name.</summary>
/// <param name="Key">Its key in addresses: the day and the name.</param>
/// <param name="Name">Its name.</param>
/// <param name="SurveyedOn">Its day.</param>
/// <param name="Soundings">How many soundings it has.</param>
public sealed record SurveyName(string Key, string Name, LocalDate SurveyedOn, int Soundings);

/// <summary>Heave between two surveys.</summary>
/// <param name="Before">The earlier.</param>
/// <param name="After">The later.</param>
/// <param name="Zones">By zone, in the order of the settings; zones that the surveys do not touch are left out.</param>
/// <param name="Refusal">Why nothing can be said; null where something is.</param>
public sealed record HeaveView(SurveyName Before, SurveyName After, IReadOnlyList<ZoneHeave> Zones, string? Refusal);

/// <summary>Heave of a zone beside the sand that went into it.</summary>
/// <param name="Zone">Zone.</param>
/// <param name="Review">The squares.</param>
/// <param name="Piles">Piles whose casing left them after the earlier survey's day and not after the later's.</param>
/// <param name="SandInPile">Sand in these piles, cubic metres in the pile.</param>
/// <param name="WithoutSand">Piles among them whose sand is not known.</param>
/// <param name="MeanLengthMetres">Their mean length, metres; null where none is known.</param>
/// <param name="ReplacementRatio">Mean a_s as built; null where it is not known.</param>
public sealed record ZoneHeave(string Zone, HeaveReview Review, int Piles, double SandInPile, int WithoutSand, double? MeanLengthMetres, double? ReplacementRatio)
{
    /// <summary>Volume that came up for each cubic metre of sand in the piles; null without sand. It is of the zone only where the surveys cover it.</summary>
    public double? UpheavalRatio => SandInPile > 0 && Review.Squares.Count > 0 ? Review.VolumeCubicMetres / SandInPile : null;

    /// <summary>The same as it may be expected.</summary>
    public double? ExpectedRatio => ReplacementRatio is { } ratio && MeanLengthMetres is > 0 and { } length ? ExpectedHeave.UpheavalRatio(ratio, length) : null;

    /// <summary>True where the expectation was found for such piles.</summary>
    public bool IsWithinItsRange => ReplacementRatio is { } ratio && MeanLengthMetres is { } length && ExpectedHeave.IsWithinItsRange(ratio, length);

    /// <summary>How well the difference of two surveys of special order is known, metres (95 %).</summary>
    public double? UncertaintyMetres => Review.Squares.Count == 0 ? null : Math.Sqrt(2) * ExpectedHeave.SpecialOrderMetres(-Review.Squares.Average(square => square.BeforeMetres));
}

/// <summary>Penetration tests before and after the piles.</summary>
/// <param name="Tests">Every test with its pile.</param>
/// <param name="Steps">Counts by zone and level.</param>
public sealed record BlowsView(IReadOnlyList<TestBesidePile> Tests, IReadOnlyList<BlowStepView> Steps);

/// <summary>Counts of a step with what may be expected.</summary>
/// <param name="Step">The counts.</param>
/// <param name="LeastAsked">Least N the contract asks of a lot; null where it asks none.</param>
/// <param name="Expected">N after as expected from the mean before; null where that or an input is missing.</param>
/// <param name="StressKilopascals">Effective stress it was reckoned with, kPa.</param>
public sealed record BlowStepView(BlowStep Step, double? LeastAsked, ExpectedBlows? Expected, double? StressKilopascals)
{
    /// <summary>Mean N before; null without a test.</summary>
    public double? MeanBefore => Step.Before.Count == 0 ? null : Step.Before.Average();

    /// <summary>Mean N after; null without a test.</summary>
    public double? MeanAfter => Step.After.Count == 0 ? null : Step.After.Average();
}
