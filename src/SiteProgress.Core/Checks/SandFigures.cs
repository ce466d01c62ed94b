using SiteProgress.Core.Deviations;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Checks;

/// <summary>
/// Sand of one pile, cubic metres. <i>In casing</i> is loose volume, <i>in pile</i> is that volume times C.
/// Sand in the pile counts the standing parts; an attempt's sand is shared out by length.
/// </summary>
/// <param name="InCasingUsed">Loose volume over the installations it stands on, whole.</param>
/// <param name="InCasingStanding">Loose volume of the parts that stand.</param>
/// <param name="InPile">Volume in the pile: that of the standing parts times C.</param>
/// <param name="DesignInPile">Design volume for the as-built length.</param>
/// <param name="VolumeChangeFactor">The C used.</param>
/// <param name="SandSource">The source C belongs to.</param>
/// <param name="Missing">What is missing, when a figure is.</param>
public sealed record SandFigures(
    double? InCasingUsed,
    double? InCasingStanding,
    double? InPile,
    double? DesignInPile,
    double? VolumeChangeFactor,
    string SandSource,
    string? Missing)
{
    /// <summary>Works out the sand of a pile from what it stands on.</summary>
    internal static SandFigures Of(PlannedPile pile, IReadOnlyList<StandingPart> standing, JudgingContract contract)
    {
        ArgumentNullException.ThrowIfNull(pile);
        double? used = Sum(standing, part => part.Installation.Recorded.SandInCasing);
        double? inCasing = Sum(standing, part => part.Installation.Recorded.SandInCasing * part.ShareRatio);
        double? length = Sum(standing, part => part.LengthMetres);
        string? missing =
            used is null ? "The sand of an installation is not on the record."
            : length is null ? "The length is not known: a level is missing on the record."
            : contract.VolumeChangeFactor is null ? $"The site states no volume-change factor for the sand source '{contract.SandSource}'."
            : null;
        return new SandFigures(
            used,
            inCasing,
            inCasing * contract.VolumeChangeFactor,
            length * contract.Zone.SandPerMetreInPile,
            contract.VolumeChangeFactor,
            contract.SandSource,
            missing);
    }

    private static double? Sum(IReadOnlyList<StandingPart> parts, Func<StandingPart, double?> figure)
    {
        double? sum = 0;
        foreach (StandingPart part in parts) sum += figure(part);
        return sum;
    }
}

/// <summary>Is there as much sand in the pile as designed?</summary>
internal static class SandCheck
{
    /// <summary>The whole pile by its record and, where there is a log, each metre of it: a part not met is the finding.</summary>
    public static CheckResult Judge(SandFigures sand, IReadOnlyList<PartLog> logs, JudgingContract contract)
    {
        CheckResult whole = Whole(sand, contract);
        return whole.Verdict != Verdict.NotMet && LogChecks.SandByDepth(logs, contract) is { Verdict: Verdict.NotMet } thin ? thin : whole;
    }

    private static CheckResult Whole(SandFigures sand, JudgingContract contract)
    {
        bool required = contract.Requires(CheckName.Sand);
        if (sand.Missing is { } missing) return CheckResult.Missing(CheckName.Sand, required, "ratio", missing);
        if (sand.DesignInPile is not > 0)
        {
            return CheckResult.Missing(CheckName.Sand, required, "ratio", "The as-built length is not above zero.");
        }

        double ratio = sand.InPile!.Value / sand.DesignInPile.Value;
        double limit = 1 - contract.Zone.Limits.SandShortRatio;
        return new CheckResult(
            CheckName.Sand,
            AgainstLimit.IsAtLeast(ratio, limit) ? Verdict.Met : Verdict.NotMet,
            required,
            ratio,
            limit,
            "ratio",
            false,
            $"Sand in pile (sand in casing times C of {sand.SandSource}) divided by design sand of the as-built length >= limit ({contract.Zone.Limits.Source}; {contract.Zone.Limits.Approval}).");
    }
}
