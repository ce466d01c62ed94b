using SiteProgress.Core.Deviations;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Checks;

/// <summary>Are the as-built top and tip where they should be?</summary>
internal static class LevelChecks
{
    public static CheckResult Top(PlannedPile pile, IReadOnlyList<StandingPart> standing, JudgingContract contract)
    {
        bool required = contract.Requires(CheckName.Top);
        if (standing[^1].ToLevelMetres is not { } top)
        {
            return CheckResult.Missing(CheckName.Top, required, "m", standing[^1].Installation.WhyNoTopLevel ?? "No as-built top level is on the record.");
        }

        double difference = top - pile.TopLevelMetres;
        return CheckResult.Held(
            CheckName.Top,
            required,
            ContractLimits.Top(contract.Zone).Hold(difference),
            difference,
            "m",
            false,
            $"As-built top level minus design top level, either way, <= limit ({contract.Zone.Limits.Source}; {contract.Zone.Limits.Approval}).");
    }

    public static CheckResult Tip(PlannedPile pile, IReadOnlyList<StandingPart> standing, JudgingContract contract)
    {
        bool required = contract.Requires(CheckName.Tip);
        CheckResult? level = contract.Zone.TipRule is TipRule.Level or TipRule.Both ? TipLevel(pile, standing, contract, required) : null;
        CheckResult? criterion = contract.Zone.TipRule is TipRule.Criterion or TipRule.Both ? StopCriterion(standing, contract, required) : null;
        CheckResult? length = LeastLength(pile, standing, required);
        CheckResult[] parts = new[] { level, criterion, length }.OfType<CheckResult>().ToArray();

        // The first part not met is the finding; else the first that cannot be judged; else the part that decides.
        return Array.Find(parts, part => part.Verdict == Verdict.NotMet)
            ?? Array.Find(parts, part => part.Verdict == Verdict.NotJudged)
            ?? parts[0];
    }

    private static CheckResult TipLevel(PlannedPile pile, IReadOnlyList<StandingPart> standing, JudgingContract contract, bool required)
    {
        if (standing[0].FromLevelMetres is not { } tip)
        {
            return CheckResult.Missing(CheckName.Tip, required, "m", standing[0].Installation.WhyNoTipLevel ?? "No tip level is on the record.");
        }

        if (pile.TipLevelMetres is not { } design)
        {
            return CheckResult.Missing(CheckName.Tip, required, "m", "The design gives no tip level for this pile.");
        }

        double shortBy = tip - design;
        return CheckResult.Held(
            CheckName.Tip,
            required,
            ContractLimits.Tip(contract.Zone).Hold(shortBy),
            shortBy,
            "m",
            false,
            $"As-built tip level minus design tip level (positive: too shallow) <= limit ({contract.Zone.Limits.Source}; {contract.Zone.Limits.Approval}).");
    }

    private static CheckResult StopCriterion(IReadOnlyList<StandingPart> standing, JudgingContract contract, bool required)
    {
        if (contract.Zone.StopPenetrationRateMetresPerMinute is not { } limit)
        {
            return CheckResult.Missing(CheckName.Tip, required, "m/min", "The zone states no stop criterion.");
        }

        if (standing[0].Installation.Recorded.StopRateMetresPerMinute is not { } rate)
        {
            return CheckResult.Missing(CheckName.Tip, required, "m/min", "No penetration rate at the stop is on the record.");
        }

        return new CheckResult(
            CheckName.Tip,
            AgainstLimit.IsAtMost(rate, limit) ? Verdict.Met : Verdict.NotMet,
            required,
            rate,
            limit,
            "m/min",
            false,
            "Penetration rate when penetration was stopped <= stop criterion of the zone.");
    }

    private static CheckResult? LeastLength(PlannedPile pile, IReadOnlyList<StandingPart> standing, bool required)
    {
        if (pile.LeastLengthMetres is not { } least) return null;
        if (standing[^1].ToLevelMetres - standing[0].FromLevelMetres is not { } length)
        {
            return CheckResult.Missing(CheckName.Tip, required, "m", "The length is not known: a level is missing on the record.");
        }

        return new CheckResult(
            CheckName.Tip,
            AgainstLimit.IsAtLeast(length, least) ? Verdict.Met : Verdict.NotMet,
            required,
            length,
            least,
            "m",
            false,
            "Length from as-built tip to as-built top >= least length of the design.");
    }
}
