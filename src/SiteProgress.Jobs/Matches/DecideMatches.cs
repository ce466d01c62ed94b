using SiteProgress.Core.Derivation;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Matches;

/// <summary>Decides which piles the records are whose match waits, one or many at once. The number and the position as recorded are kept.</summary>
public sealed class DecideMatches(SiteRecorder recorder)
{
    /// <summary>Records of one decision at most.</summary>
    public static int MostRecords => 2_000;

    /// <summary>Records a decision: all of it, or nothing.</summary>
    /// <returns>Null, or why nothing was recorded.</returns>
    [Needs(Right.KeepSurvey)]
    public async Task<string?> RunAsync(Permit permit, IReadOnlyList<AskedMatch> asked, string reason, CancellationToken cancellation)
    {
        permit.Demand(Right.KeepSurvey);
        ArgumentNullException.ThrowIfNull(asked);
        if (asked.Count == 0) return "No record is chosen; expected at least one.";
        if (asked.Count > MostRecords) return FormattableString.Invariant($"{asked.Count} records are chosen; at most {MostRecords} are decided at once.");
        if (ReasonText.WhyNot(reason) is { } why) return why;
        if (asked.GroupBy(one => one.Installation).FirstOrDefault(same => same.Count() > 1) is { } twice) return FormattableString.Invariant($"Record {twice.Key} is chosen twice.");
        string? refusal = null;
        await recorder.AppendOnDerivedAsync(
            permit,
            Right.KeepSurvey,
            site =>
            {
                (MatchesDecidedBody? body, refusal) = Body(site, asked, reason.Trim());
                return body is null ? [] : [body];
            },
            cancellation);
        return refusal;
    }

    /// <summary>Withdraws a decision: what it decided waits again.</summary>
    /// <returns>Null, or why it was not withdrawn.</returns>
    [Needs(Right.KeepSurvey)]
    public async Task<string?> WithdrawAsync(Permit permit, long decision, string reason, CancellationToken cancellation)
    {
        permit.Demand(Right.KeepSurvey);
        if (ReasonText.WhyNot(reason) is { } why) return why;
        string? refusal = null;
        await recorder.AppendAsync(
            permit,
            Right.KeepSurvey,
            history =>
            {
                refusal = history.MatchDecisions.FirstOrDefault(one => one.Sequence == decision) switch
                {
                    null => FormattableString.Invariant($"There is no decision on matches in record {decision}."),
                    { Withdrawal: { } gone } => FormattableString.Invariant($"The decision of record {decision} was withdrawn already, in record {gone.Sequence}."),
                    _ => null,
                };
                return refusal is null ? [new MatchDecisionWithdrawnBody(decision, reason.Trim())] : [];
            },
            cancellation);
        return refusal;
    }

    private static (MatchesDecidedBody? Body, string? Refusal) Body(DerivedSite site, IReadOnlyList<AskedMatch> asked, string reason)
    {
        Dictionary<long, DerivedInstallation> installations = site.Installations.ToDictionary(one => one.Located.Sequence);
        Func<string, string?> planned = WaitingMatches.PlannedNumbers(site);
        List<MatchChoice> choices = [];
        foreach (AskedMatch one in asked)
        {
            if (!installations.TryGetValue(one.Installation, out DerivedInstallation? installation))
                return (null, FormattableString.Invariant($"Record {one.Installation} is no installation that counts on this site."));
            if (!installation.Match.WaitsForDecision)
                return (null, FormattableString.Invariant($"Record {one.Installation} waits no longer{(installation.Match.Decision is { } decision ? FormattableString.Invariant($": record {decision} decided it") : "")}. Nothing of yours was recorded; look at what waits now."));
            (MatchChoice? choice, string? refusal) = MatchProposals.Choose(installation, one, planned);
            if (choice is null) return (null, refusal);
            choices.Add(choice);
        }

        return (new MatchesDecidedBody(choices, reason), null);
    }
}
