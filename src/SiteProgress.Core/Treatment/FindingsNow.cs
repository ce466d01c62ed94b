using SiteProgress.Core.Checks;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;

namespace SiteProgress.Core.Treatment;

/// <summary>
/// How findings stand now: those of piles by their checks, those of sand accounts by their differences. The one place that
/// answers for both.
/// </summary>
/// <param name="judged">The piles of the design as judged.</param>
/// <param name="periods">Accounts of the sand from each measured stock to the next.</param>
internal sealed class FindingsNow(IReadOnlyDictionary<string, PileJudgement> judged, IReadOnlyList<SandPeriod> periods)
{
    private readonly Dictionary<SandAccountName, SandPeriod> _accounts = periods.ToDictionary(period => period.Name);

    /// <summary>Sand accounts whose difference is over the site's limit, in order of time.</summary>
    public IEnumerable<FindingShown> OfAccounts()
        => periods.Where(period => period.OverLimit).Select(period => new FindingShown("", CheckName.SandAccount, LineOf(period), period.Name));

    /// <summary>A finding as one line: verdict, value, limit, and what it rests on.</summary>
    public string LineOf(FindingShown finding)
        => finding.Account is { } account ? LineOf(_accounts.GetValueOrDefault(account)) : FindingLine.Of(judged.GetValueOrDefault(finding.Pile), finding.Check);

    /// <summary>True when it is still not met.</summary>
    public bool Stands(FindingShown finding)
        => finding.Account is { } account ? _accounts.GetValueOrDefault(account) is { OverLimit: true } : FindingLine.Stands(judged.GetValueOrDefault(finding.Pile), finding.Check);

    /// <summary>True when it is met now. An account that another measured stock has parted is neither met nor not met.</summary>
    public bool IsGone(FindingShown finding)
        => finding.Account is { } account
            ? _accounts.GetValueOrDefault(account) is { LimitRatio: not null, OverLimit: false }
            : FindingLine.IsGone(judged.GetValueOrDefault(finding.Pile), finding.Check);

    private static string LineOf(SandPeriod? period)
    {
        if (period is null) return "no account runs between these two stocks any more";
        string verdict = period.LimitRatio is null ? "not judged: the site sets no limit" : SheetFigures.Of(period.OverLimit ? Verdict.NotMet : Verdict.Met);
        return $"{verdict}: {SheetFigures.CubicMetres(period.DifferenceCubicMetres)} loose, {SheetFigures.Value(period.DifferenceRatio, "ratio")} of what the records used, "
            + $"limit {SheetFigures.Value(period.LimitRatio, "ratio")}; by account {SheetFigures.CubicMetres(period.ByAccountCubicMetres)}, "
            + $"by {SheetFigures.Whole(period.Installations)} records {SheetFigures.CubicMetres(period.ByRecordsCubicMetres)}";
    }
}
