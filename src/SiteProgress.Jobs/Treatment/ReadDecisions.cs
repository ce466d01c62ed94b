using NodaTime;
using Npgsql;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Core.Treatment;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Treatment;

/// <summary>What waits for a person to decide or to do, theirs first.</summary>
public sealed class ReadDecisions(SiteHistories histories, NpgsqlDataSource store, TimeProvider clock)
{
    /// <summary>What something waits for.</summary>
    public enum WaitsFor
    {
        /// <summary>A decision on a proposed disposition.</summary>
        Decision,

        /// <summary>A verification that a non-conformance is closed.</summary>
        Verification,

        /// <summary>A decision on a lot.</summary>
        LotDecision,

        /// <summary>A signature that releases a hold point.</summary>
        Release,

        /// <summary>A proposal.</summary>
        Proposal,

        /// <summary>The work, and evidence of it.</summary>
        Work,

        /// <summary>The owner's approval of settings.</summary>
        Settings,

        /// <summary>A decision on piles whose design was changed after they were built.</summary>
        DesignChange,
    }

    /// <summary>Something that waits.</summary>
    /// <param name="For">What for.</param>
    /// <param name="Number">Number of the non-conformance, lot or hold point; record of proposed settings.</param>
    /// <param name="What">What it is.</param>
    /// <param name="Piles">How many piles it speaks of.</param>
    /// <param name="DueOn">Day by which it is to be closed.</param>
    /// <param name="Overdue">True when that day is past.</param>
    /// <param name="Since">When it came to wait.</param>
    /// <param name="By">Who brought it there.</param>
    /// <param name="Mine">True when the reader may do it.</param>
    /// <param name="WhyNotMine">Why the reader may not although the role might; empty otherwise.</param>
    public sealed record Item(
        WaitsFor For, int Number, string What, int Piles, LocalDate? DueOn, bool Overdue, Instant Since, string By, bool Mine, string WhyNotMine);

    /// <summary>All that waits.</summary>
    /// <param name="Items">What waits, the reader's own first.</param>
    /// <param name="PilesWithFreeFindings">Piles with a finding that is in no non-conformance.</param>
    /// <param name="PilesReopened">Piles whose acceptance no longer holds.</param>
    /// <param name="PilesReady">Built piles that could be accepted and wait in no lot.</param>
    /// <param name="NextPile">The next pile that waits for a decision of the reader.</param>
    /// <param name="PilesWaiting">How many do.</param>
    /// <param name="TimeZone">Time zone of the site.</param>
    /// <param name="RecordSequence">The last record this follows from.</param>
    public sealed record View(
        IReadOnlyList<Item> Items,
        int PilesWithFreeFindings,
        int PilesReopened,
        int PilesReady,
        string? NextPile,
        int PilesWaiting,
        string TimeZone,
        long RecordSequence)
    {
        /// <summary>Installations whose match waits.</summary>
        public int MatchesWaiting { get; init; }

        /// <summary>Sand accounts over the site's limit that are in no non-conformance.</summary>
        public int SandAccountsWithFreeFindings { get; init; }

        /// <summary>Built piles whose design was changed afterwards, and of which nothing is decided.</summary>
        public int PilesDesignChanged { get; init; }
    }

    /// <summary>Reads what waits.</summary>
    [Needs(Right.See)]
    public async Task<View> RunAsync(Permit permit, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        SiteAtHand hand = await SiteAtHand.ReadAsync(permit, histories, store, clock, cancellation);
        string me = SiteRecorder.AccountName(permit.Account);
        List<Item> items =
        [
            .. hand.Treated.NonConformances.Where(one => one.IsOpen()).Select(one => Of(permit, me, one, hand)),
            .. hand.Treated.Lots.Where(lot => lot.Stage == LotStage.Submitted).Select(lot => Of(permit, me, lot)),
            .. hand.Treated.HoldPoints.Where(point => point.IsOpen()).Select(point => Of(permit, me, point)),
            .. hand.Site.History.SettingsProposals.Where(one => one.Waits).Select(one => Of(permit, me, one)),
            .. hand.Treated.DesignProposals.Where(one => one.Decision is null).Select(one => Of(permit, me, one)),
        ];
        IReadOnlyDictionary<string, string> names = await hand.NamesAsync(items.Select(item => item.By), cancellation);
        IReadOnlyList<string> waiting = PilesWaiting.For(permit, hand.Treated);
        return new View(
            [.. items.Select(item => item with { By = names[item.By] })
                .OrderByDescending(item => item.Mine).ThenByDescending(item => item.Overdue).ThenBy(item => item.For).ThenBy(item => item.Since)],
            hand.Site.Piles.Count(pile => pile.Judgement.State == PileState.Finding),
            hand.Site.Piles.Count(pile => pile.Treatment.Reopened is not null),
            hand.Site.Piles.Count(pile => pile.Judgement.State == PileState.Installed && pile.Treatment.Lot is null),
            waiting.Count > 0 ? waiting[0] : null,
            waiting.Count,
            hand.TimeZone,
            hand.Site.History.Sequence)
        {
            SandAccountsWithFreeFindings = hand.Treated.FreeAccountFindings().Count(),
            PilesDesignChanged = hand.Site.Piles.Count(pile => pile.Design.IsOpen),
            MatchesWaiting = hand.Site.Installations.Count(one => one.Match.WaitsForDecision),
        };
    }

    private static Item Of(Permit permit, string me, NonConformance one, SiteAtHand hand)
    {
        WaitsFor waits = one.Stage switch
        {
            Stage.Proposed => WaitsFor.Decision,
            Stage.ToVerify => WaitsFor.Verification,
            Stage.Approved => WaitsFor.Work,
            _ => WaitsFor.Proposal,
        };
        bool decides = waits is WaitsFor.Decision or WaitsFor.Verification;
        bool own = decides && (one.Proposal?.By == me || (waits == WaitsFor.Verification && one.Steps.Any(step => step.Kind == RecordKind.EvidenceGiven && step.By == me)));
        TreatmentStep last = one.Steps.Last(step => step.Kind != RecordKind.CommentMade);
        return new Item(
            waits, one.Number, one.Reopened is null ? one.Reason : $"Re-opened. {one.Reason}", one.Piles().Count, one.DueOn, hand.IsOverdue(one), last.At, last.By,
            !own && permit.Allows(decides ? Right.Decide : Right.Propose), own ? "Your own proposal or evidence; somebody else decides." : "");
    }

    private static Item Of(Permit permit, string me, Lot lot)
    {
        bool own = lot.Submitted.By == me;
        return new Item(
            WaitsFor.LotDecision, lot.Number, lot.Note, lot.Piles.Count, null, false, lot.Submitted.At, lot.Submitted.By,
            !own && permit.Allows(Right.Decide), own ? "You submitted it; somebody else decides." : "");
    }

    private static Item Of(Permit permit, string me, SettingsProposal one) => new(
        WaitsFor.Settings, checked((int)one.Sequence), one.Body.Reason, 0, null, false, one.At, one.By,
        one.By != me && permit.Allows(Right.ApproveLimits), one.By == me ? "You proposed it; somebody else decides." : "");

    private static Item Of(Permit permit, string me, DesignChangeProposal one) => new(
        WaitsFor.DesignChange, checked((int)one.Record.Sequence), one.Body.Reason, one.Body.Piles.Count, null, false, one.Record.At, one.Record.By,
        one.Record.By != me && permit.Allows(Right.Decide), one.Record.By == me ? "You proposed it; somebody else decides." : "");

    private static Item Of(Permit permit, string me, HoldPoint point)
    {
        TreatmentStep[] signed = [.. point.Steps.Where(step => step.Kind == RecordKind.HoldPointSigned)];
        bool mine = (permit.Allows(Right.Decide) || (permit.Allows(Right.KeepSurvey) && point.NeedsSurveyor())) && signed.All(step => step.By != me);
        return new Item(
            WaitsFor.Release, point.Number, point.Name, point.PilesWaiting, null, false, point.Steps[^1].At, point.Steps[^1].By, mine, "");
    }
}
