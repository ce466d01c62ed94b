using Npgsql;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Treatment;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Sites;
using static SiteProgress.Jobs.Sites.RowReading;

namespace SiteProgress.Jobs.Treatment;

/// <summary>How much of a site waits for a decision, for the pages that only say so.</summary>
public sealed class CountWaiting(NpgsqlDataSource store)
{
    /// <summary>The counts.</summary>
    /// <param name="ProposalsToDecide">Dispositions that wait for a decision.</param>
    /// <param name="ClosuresToVerify">Non-conformances that wait for a verification.</param>
    /// <param name="ProposalsNeeded">Non-conformances that wait for a proposal.</param>
    /// <param name="WorkToDo">Approved dispositions that wait for the work.</param>
    /// <param name="OpenDueBefore">Due days of open non-conformances.</param>
    /// <param name="LotsToDecide">Lots that wait for a decision.</param>
    /// <param name="HoldPoints">Hold points that wait, with the piles that wait for each.</param>
    /// <param name="PilesWithFinding">Piles with a finding that is in no non-conformance.</param>
    /// <param name="PilesReopened">Piles whose acceptance no longer holds.</param>
    public sealed record Counts(
        int ProposalsToDecide,
        int ClosuresToVerify,
        int ProposalsNeeded,
        int WorkToDo,
        IReadOnlyList<DateOnly> OpenDueBefore,
        int LotsToDecide,
        IReadOnlyList<WaitingHoldPoint> HoldPoints,
        int PilesWithFinding,
        int PilesReopened);

    /// <summary>A hold point that waits.</summary>
    /// <param name="Number">Its number.</param>
    /// <param name="Name">What it is called.</param>
    /// <param name="PilesWaiting">How many piles wait for it.</param>
    /// <param name="Barge">The barge that waits with its anchors.</param>
    public sealed record WaitingHoldPoint(int Number, string Name, int PilesWaiting, string? Barge);

    /// <summary>Counts.</summary>
    [Needs(Right.See)]
    public async Task<Counts> RunAsync(Permit permit, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        List<(Stage Stage, DateOnly? DueOn)> stages = await store.ReadAsync(
            "select stage, due_on from derived.non_conformance where site = $1",
            row => ((Stage)row.GetInt16(0), row.DayOrNull(1)),
            cancellation,
            Site(permit.Site));
        List<WaitingHoldPoint> points = await store.ReadAsync(
            "select number, detail->>'name', piles_waiting, detail->>'barge' from derived.hold_point where site = $1 and waits order by number",
            row => new WaitingHoldPoint(row.GetInt32(0), row.GetString(1), row.GetInt32(2), row.TextOrNull(3)),
            cancellation,
            Site(permit.Site));
        (int lots, int findings, int reopened) = (await store.ReadAsync(
            $"""
            select (select count(*) from derived.lot where site = $1 and stage = {(int)LotStage.Submitted})::int,
                (select count(*) from derived.pile where site = $1 and state = {(int)PileState.Finding})::int,
                (select count(*) from derived.pile where site = $1 and reopened is not null)::int
            """,
            row => (row.GetInt32(0), row.GetInt32(1), row.GetInt32(2)),
            cancellation,
            Site(permit.Site))).Single();
        int Count(params Stage[] which) => stages.Count(one => which.Contains(one.Stage));
        return new Counts(
            Count(Stage.Proposed),
            Count(Stage.ToVerify),
            Count(Stage.Raised, Stage.Returned, Stage.Reopened),
            Count(Stage.Approved),
            [.. stages.Where(one => one.Stage != Stage.Closed).Select(one => one.DueOn).OfType<DateOnly>()],
            lots,
            points,
            findings,
            reopened);
    }
}
