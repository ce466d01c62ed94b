using SiteProgress.Core.Deviations;
using SiteProgress.Core.Logs;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Checks;

/// <summary>
/// Do two accounts of the sand of one pile agree: the log and the record, the weighed charges and what the gauge saw of them? Asked only
/// where the site sets a limit and there is a log.
/// </summary>
internal static class SandAgreementCheck
{
    public static CheckResult? Judge(IReadOnlyList<PartLog> logs, JudgingContract contract)
    {
        if (contract.SandAgreementRatio is not { } limit) return null;
        (double Ratio, string Words)[] differences = [.. logs.SelectMany(log => Differences(log))];
        if (differences.Length == 0) return null;
        (double ratio, string words) = differences.MaxBy(one => Math.Abs(one.Ratio));
        return new CheckResult(
            CheckName.SandAgreement, AgainstLimit.IsAtMost(Math.Abs(ratio), limit) ? Verdict.Met : Verdict.NotMet, contract.Requires(CheckName.SandAgreement), Math.Abs(ratio), limit, "ratio", false,
            $"{words} <= the site's limit.");
    }

    private static IEnumerable<(double Ratio, string Words)> Differences(PartLog log)
    {
        if (log.Figures is not { } figures) yield break;
        if (figures.SandLeftCubicMetres is { } left && log.Part.Installation.Recorded.SandInCasing is > 0 and var recorded)
            yield return ((left / recorded) - 1, FormattableString.Invariant($"Sand by the {PartLogs.Name(log)}, {left:0.0} m³, against {recorded:0.0} m³ on the record, as a share of the record,"));
        if (figures.Compared is { RecordedCubicMetres: > 0 } compared)
            yield return ((compared.SeenCubicMetres / compared.RecordedCubicMetres) - 1, FormattableString.Invariant($"Rise of the sand by the {PartLogs.Name(log)} at charges the gauge saw whole, {compared.SeenCubicMetres:0.0} m³, against {compared.RecordedCubicMetres:0.0} m³ recorded, as a share of these,"));
    }
}
