using System.Globalization;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Deviations;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Checks;

/// <summary>The moment of a judged position.</summary>
public enum PositionMoment
{
    /// <summary>The casing touched down.</summary>
    TouchDown = 1,

    /// <summary>The casing tip was at its deepest.</summary>
    EndOfPenetration = 2,
}

/// <summary>The position a pile is judged by: of all those on record for what stands, the one that takes up most of its limit.</summary>
/// <param name="Sequence">Sequence of the installation.</param>
/// <param name="Moment">Moment of the position.</param>
/// <param name="AsBuilt">The position, site grid.</param>
/// <param name="Deviation">As-built minus planned.</param>
/// <param name="UncertaintyMetres">Its uncertainty (95 %), metres.</param>
/// <param name="Comparable">False when a position of what stands may not be held against the limit, because of its fix or an instruction.</param>
public sealed record JudgedPosition(
    long Sequence,
    PositionMoment Moment,
    SiteCoordinate AsBuilt,
    PositionDeviation Deviation,
    double UncertaintyMetres,
    bool Comparable);

/// <summary>Is the casing axis within the limits of its position, at touch-down and at the end of penetration?</summary>
internal static class PositionCheck
{
    public static JudgedPosition? Governing(PlannedPile pile, IReadOnlyList<StandingPart> standing, JudgingContract contract)
    {
        PositionLimit limit = ContractLimits.Position(contract.Zone, pile.DiameterMetres);
        bool comparable = standing.All(part => WhyNotComparable(part.Installation, contract.Needs) is null);
        return standing
            .SelectMany(part => Positions(part.Installation))
            .Select(one => new JudgedPosition(
                one.Installation.Sequence,
                one.Moment,
                one.At,
                PositionDeviation.Between(pile.Position, one.At, contract.GridRotation),
                one.Installation.Recorded.UncertaintyMetres ?? contract.DefaultUncertaintyMetres,
                comparable))
            .Select(judged => (Judged: judged, Held: limit.Hold(judged.Deviation).Answer))
            .OrderByDescending(one => one.Held.Standing)
            .ThenByDescending(one => one.Held.ShareOfLimitRatio)
            .ThenByDescending(one => one.Judged.Deviation.RadialMetres)
            .ThenByDescending(one => one.Judged.Moment)
            .Select(one => one.Judged)
            .FirstOrDefault();
    }

    public static CheckResult Judge(PlannedPile pile, JudgedPosition? governing, IReadOnlyList<StandingPart> standing, JudgingContract contract)
    {
        bool required = contract.Requires(CheckName.Position);
        string? missing = governing is null
            ? "No position is on the record."
            : standing.Select(part => WhyNotComparable(part.Installation, contract.Needs)).FirstOrDefault(reason => reason is not null);
        if (missing is not null) return CheckResult.Missing(CheckName.Position, required, "m", missing);

        (PositionMeasure measure, LimitAnswer answer) = ContractLimits.Position(contract.Zone, pile.DiameterMetres).Hold(governing!.Deviation);
        return CheckResult.Held(
            CheckName.Position,
            required,
            answer,
            answer.Value,
            "m",
            Math.Abs(answer.Value - answer.Limit) <= governing.UncertaintyMetres,
            $"{Words(measure)}, {Words(governing.Moment)}, <= limit ({contract.Zone.Limits.Source}; {contract.Zone.Limits.Approval}).");
    }

    private static string Words(PositionMeasure measure) => measure switch
    {
        PositionMeasure.Along => "Deviation of the casing axis along the first axis of the site grid, either way",
        PositionMeasure.Across => "Deviation of the casing axis along the second axis of the site grid, either way",
        _ => "Radial distance of the casing axis from its design position",
    };

    private static string Words(PositionMoment moment)
        => moment == PositionMoment.TouchDown ? "at touch-down" : "at the end of penetration";

    private static string? WhyNotComparable(LocatedInstallation installation, PositionNeeds? needs) => installation.Recorded switch
    {
        { Outcome: Outcome.OffsetByInstruction } => "Built off its design position by instruction; the instructed position is not on the record.",
        { Fix: null } => "The record does not say what kind of fix the position comes from.",
        { Fix: not FixType.RtkFixed and var fix } => $"The position comes from a fix other than RTK-fixed ({fix}).",
        var recorded => needs is null ? null : WhatIsNeeded(recorded, needs, installation.Calibration is not null),
    };

    private static string? WhatIsNeeded(Installation recorded, PositionNeeds needs, bool calibrated) => recorded switch
    {
        _ when needs.Calibration && !calibrated => "No calibration of the casing holds at the time of the record, and the site requires one.",
        { CorrectionAgeSeconds: null } when needs.MostCorrectionAgeSeconds is not null => "The record does not say how old the correction of its position was, and the site requires it.",
        { CorrectionAgeSeconds: { } age } when age > needs.MostCorrectionAgeSeconds => string.Create(CultureInfo.InvariantCulture, $"The correction of the position was {age:0.#} s old; the site allows {needs.MostCorrectionAgeSeconds:0.#} s."),
        { UncertaintyMetres: null } when needs.MostUncertaintyMetres is not null => "The record states no uncertainty of its position, and the site requires it.",
        { UncertaintyMetres: { } uncertainty } when uncertainty > needs.MostUncertaintyMetres => string.Create(CultureInfo.InvariantCulture, $"The uncertainty of the position is {uncertainty:0.000} m; the site allows {needs.MostUncertaintyMetres:0.000} m."),
        { CoordinateEpoch: null } when needs.CoordinateEpoch => "The record does not say at which epoch its coordinates are, and the site requires it.",
        _ when needs.HeadingNorth && (recorded.HeadingDegrees is null || recorded.HeadingNorth is null) => "The record does not state a heading with its north, and the site requires both.",
        _ => null,
    };

    private static IEnumerable<(LocatedInstallation Installation, PositionMoment Moment, SiteCoordinate At)> Positions(LocatedInstallation installation)
    {
        if (installation.TouchDown is { } touchDown) yield return (installation, PositionMoment.TouchDown, touchDown);
        if (installation.AtEndOfPenetration is { } atEnd) yield return (installation, PositionMoment.EndOfPenetration, atEnd);
    }
}
