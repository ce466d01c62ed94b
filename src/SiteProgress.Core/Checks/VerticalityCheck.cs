using SiteProgress.Core.Deviations;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Checks;

/// <summary>Is the casing upright enough?</summary>
internal static class VerticalityCheck
{
    public static CheckResult Judge(IReadOnlyList<StandingPart> standing, JudgingContract contract)
    {
        bool required = contract.Requires(CheckName.Verticality);
        if (contract.Zone.Limits.InclinationDegrees is null)
        {
            return CheckResult.Missing(CheckName.Verticality, required, "deg", "The contract sets no limit of inclination for this zone.");
        }

        double?[] inclinations = standing.Select(part => part.Installation.Recorded.InclinationDegrees).ToArray();
        if (inclinations.Any(inclination => inclination is null))
        {
            return CheckResult.Missing(CheckName.Verticality, required, "deg", "No inclination of the casing is on the record.");
        }

        double largest = inclinations.Max()!.Value;
        return CheckResult.Held(
            CheckName.Verticality,
            required,
            ContractLimits.Inclination(contract.Zone, largest)!.Value,
            largest,
            "deg",
            false,
            $"Inclination of the casing from the vertical <= limit ({contract.Zone.Limits.Source}; {contract.Zone.Limits.Approval}).");
    }
}

/// <summary>Are the times of the record there, and in order?</summary>
internal static class TimesCheck
{
    public static CheckResult Judge(IReadOnlyList<StandingPart> standing, JudgingContract contract)
    {
        bool required = contract.Requires(CheckName.Times);
        foreach (StandingPart part in standing)
        {
            Installation recorded = part.Installation.Recorded;
            if (recorded.Start is not { } start || recorded.EndOfPenetration is not { } deepest || recorded.End is not { } end)
            {
                return CheckResult.Missing(CheckName.Times, required, "min", "A time is missing on the record: start, end of penetration or end.");
            }

            if (start > deepest || deepest > end)
            {
                return new CheckResult(
                    CheckName.Times, Verdict.NotMet, required, (end - start).TotalMinutes, 0, "min", false,
                    "Start, end of penetration and end must follow each other in this order.");
            }
        }

        Installation last = standing[^1].Installation.Recorded;
        return new CheckResult(
            CheckName.Times, Verdict.Met, required, (last.End!.Value - last.Start!.Value).TotalMinutes, 0, "min", false,
            "Start, end of penetration and end are on the record, in this order.");
    }
}
