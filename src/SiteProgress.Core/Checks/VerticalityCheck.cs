using SiteProgress.Core.Deviations;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Checks;

/// <summary>Is the casing upright enough?</summary>
internal static class VerticalityCheck
{
    /// <summary>By the log where it holds the inclination, else by the record; of several parts the largest counts.</summary>
    public static CheckResult Judge(IReadOnlyList<PartLog> logs, JudgingContract contract)
    {
        bool required = contract.Requires(CheckName.Verticality);
        if (contract.Zone.Limits.InclinationDegrees is null)
        {
            return CheckResult.Missing(CheckName.Verticality, required, "deg", "The contract sets no limit of inclination for this zone.");
        }

        double?[] inclinations = logs.Select(log => log.Figures?.InclinationDegrees ?? log.Part.Installation.Recorded.InclinationDegrees).ToArray();
        if (inclinations.Any(inclination => inclination is null))
        {
            return CheckResult.Missing(CheckName.Verticality, required, "deg", "No inclination of the casing is on the record.");
        }

        double largest = inclinations.Max()!.Value;
        PartLog from = logs[Array.IndexOf(inclinations, largest)];
        string by = from.Figures?.InclinationDegrees is null ? "" : $", as the largest mean of ten seconds between base and top by the {PartLogs.Name(from)},";
        return CheckResult.Held(
            CheckName.Verticality,
            required,
            ContractLimits.Inclination(contract.Zone, largest)!.Value,
            largest,
            "deg",
            false,
            $"Inclination of the casing from the vertical{by} <= limit ({contract.Zone.Limits.Source}; {contract.Zone.Limits.Approval}).");
    }
}
