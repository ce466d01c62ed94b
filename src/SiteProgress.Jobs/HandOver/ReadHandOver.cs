using NodaTime;
using Npgsql;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;
using SiteProgress.Core.Records;
using SiteProgress.Core.Treatment;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;
using SiteProgress.Jobs.Treatment;

namespace SiteProgress.Jobs.HandOver;

/// <summary>How near the record of a site is to being handed over: what is accepted, and what is still open.</summary>
public sealed class ReadHandOver(SiteHistories histories, NpgsqlDataSource store, TimeProvider clock)
{
    /// <summary>The state of the record.</summary>
    /// <param name="States">Piles of the design by state; every state, also with none.</param>
    /// <param name="Open">What is open, only what there is.</param>
    /// <param name="Reports">Issues of daily reports, the latest day first; of each day the last issue.</param>
    /// <param name="HandOvers">Offers of the record with their answers, in order.</param>
    /// <param name="Names">Names of those who offered and answered, by how the records write them.</param>
    /// <param name="TimeZone">Time zone of the site.</param>
    /// <param name="RecordSequence">The last record this follows from.</param>
    public sealed record View(
        IReadOnlyList<StateCount> States, IReadOnlyList<OpenItem> Open, IReadOnlyList<IssuedReport> Reports,
        IReadOnlyList<HandOverOffer> HandOvers, IReadOnlyDictionary<string, string> Names, string TimeZone, long RecordSequence)
    {
        /// <summary>Piles of the design, those taken out of it not counted.</summary>
        public int Piles => States.Where(one => one.State != PileState.Cancelled).Sum(one => one.Piles);

        /// <summary>Piles accepted, with a concession or without.</summary>
        public int Accepted => States.Where(one => one.State is PileState.Accepted or PileState.AcceptedWithConcession).Sum(one => one.Piles);
    }

    /// <summary>Piles in one state.</summary>
    public sealed record StateCount(PileState State, int Piles);

    /// <summary>Something that a hand-over now would leave open.</summary>
    /// <param name="What">What kind of thing.</param>
    /// <param name="Count">How many of it.</param>
    public sealed record OpenItem(OpenKind What, int Count);

    /// <summary>The last issue of the report of a working day.</summary>
    /// <param name="Day">Working day.</param>
    /// <param name="Issue">Number of the issue.</param>
    /// <param name="ContractorSigned">True when the contractor signed it.</param>
    /// <param name="OwnerSigned">True when the owner countersigned it.</param>
    /// <param name="Disputes">Lines the owner disputes.</param>
    public sealed record IssuedReport(LocalDate Day, int Issue, bool ContractorSigned, bool OwnerSigned, int Disputes);

    /// <summary>Kinds of what can be open.</summary>
    public enum OpenKind
    {
        /// <summary>Piles for which nothing stands.</summary>
        OutstandingPiles = 1,

        /// <summary>Piles that stand and are not accepted.</summary>
        PilesNotAccepted,

        /// <summary>Acceptances that a later record re-opened.</summary>
        Reopened,

        /// <summary>Installations for which nobody said which pile they are.</summary>
        MatchesWaiting,

        /// <summary>Non-conformances that are not closed.</summary>
        NonConformancesOpen,

        /// <summary>Hold points that are not released.</summary>
        HoldPointsOpen,

        /// <summary>Working days with a completed pile and no countersigned report.</summary>
        DaysWithoutSignedReport,

        /// <summary>Proposed settings that wait for the owner's representative.</summary>
        SettingsWaiting,
    }

    /// <summary>Reads it.</summary>
    [Needs(Right.See)]
    public async Task<View> RunAsync(Permit permit, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        SiteAtHand hand = await SiteAtHand.ReadAsync(permit, histories, store, clock, cancellation);
        DerivedSite site = hand.Site;
        ILookup<PileState, DerivedPile> byState = site.Piles.ToLookup(pile => pile.Treatment.State);
        IssuedReport[] reports = [.. site.Progress.Reports.GroupBy(one => one.Issued.Body.WorkingDay).Select(day => Last(day)).OrderByDescending(one => one.Day)];
        return new View(
            [.. Enum.GetValues<PileState>().Select(state => new StateCount(state, byState[state].Count()))],
            [.. Open(site, reports).Where(one => one.Count > 0)],
            reports,
            site.History.HandOvers,
            await hand.NamesAsync(site.History.HandOvers.SelectMany(one => new[] { one.Offer.By, one.Answer?.By }), cancellation),
            hand.TimeZone,
            site.History.Sequence);
    }

    private static IssuedReport Last(IEnumerable<DerivedDailyReport> issues)
    {
        DerivedDailyReport last = issues.MaxBy(one => one.Issued.Body.Issue)!;
        return new IssuedReport(last.Issued.Body.WorkingDay, last.Issued.Body.Issue, last.ContractorSigned is not null, last.OwnerSigned is not null, last.Disputes.Count);
    }

    private static IEnumerable<OpenItem> Open(DerivedSite site, IssuedReport[] reports)
    {
        HashSet<LocalDate> signed = [.. reports.Where(one => one.OwnerSigned).Select(one => one.Day)];
        yield return new(OpenKind.OutstandingPiles, site.Piles.Count(pile => pile.Treatment.State is PileState.Outstanding or PileState.BuildAgain));
        yield return new(OpenKind.PilesNotAccepted, site.Piles.Count(pile => pile.Treatment.State is PileState.IncompleteRecord or PileState.Installed or PileState.Finding or PileState.NonConformance));
        yield return new(OpenKind.Reopened, site.Piles.Count(pile => pile.Treatment.Reopened is not null));
        yield return new(OpenKind.MatchesWaiting, site.Installations.Count(one => one.Match.WaitsForDecision));
        yield return new(OpenKind.NonConformancesOpen, site.Treated.NonConformances.Count(one => one.IsOpen()));
        yield return new(OpenKind.HoldPointsOpen, site.Treated.HoldPoints.Count(one => one.IsOpen()));
        yield return new(OpenKind.DaysWithoutSignedReport, site.Production.Where(day => day.Piles > 0).Select(day => day.Day).Distinct().Count(day => !signed.Contains(day)));
        yield return new(OpenKind.SettingsWaiting, site.History.SettingsProposals.Count(one => one.Waits));
    }
}
