using NodaTime;
using Npgsql;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Treatment;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Treatment;

/// <summary>Non-conformances: the list, and one of them.</summary>
public sealed class ReadNonConformances(SiteHistories histories, NpgsqlDataSource store, TimeProvider clock)
{
    /// <summary>A non-conformance with what the page needs beside it.</summary>
    /// <param name="NonConformance">The non-conformance.</param>
    /// <param name="Overdue">True when its due day is past.</param>
    /// <param name="Sheet">What is shown to who decides.</param>
    /// <param name="Hash">Hash of the sheet; it is sent back with the decision.</param>
    /// <param name="Names">Names of those who recorded.</param>
    /// <param name="TimeZone">Time zone of the site.</param>
    /// <param name="RecordSequence">The last record this follows from.</param>
    public sealed record One(
        NonConformance NonConformance, bool Overdue, Sheet Sheet, string Hash, IReadOnlyDictionary<string, string> Names, string TimeZone, long RecordSequence);

    /// <summary>The list.</summary>
    /// <param name="All">Non-conformances, the latest first.</param>
    /// <param name="TimeZone">Time zone of the site.</param>
    /// <param name="RecordSequence">The last record this follows from.</param>
    public sealed record List(IReadOnlyList<Line> All, string TimeZone, long RecordSequence);

    /// <summary>A line of the list.</summary>
    /// <param name="Number">Its number.</param>
    /// <param name="Stage">How far it is.</param>
    /// <param name="Disposition">Disposition in force.</param>
    /// <param name="Reason">Why it was raised.</param>
    /// <param name="Piles">Its piles.</param>
    /// <param name="Checks">Checks not met.</param>
    /// <param name="DueOn">Day by which it is to be closed.</param>
    /// <param name="Overdue">True when that day is past.</param>
    /// <param name="RaisedAt">When it was raised.</param>
    /// <param name="RaisedBy">Who raised it.</param>
    public sealed record Line(
        int Number,
        Stage Stage,
        Disposition? Disposition,
        string Reason,
        IReadOnlyList<string> Piles,
        IReadOnlyList<CheckName> Checks,
        LocalDate? DueOn,
        bool Overdue,
        Instant RaisedAt,
        string RaisedBy)
    {
        /// <summary>Its sand accounts.</summary>
        public IReadOnlyList<SandAccountName> Accounts { get; init; } = [];
    }

    /// <summary>Reads the list.</summary>
    [Needs(Right.See)]
    public async Task<List> ListAsync(Permit permit, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        SiteAtHand hand = await SiteAtHand.ReadAsync(permit, histories, store, clock, cancellation);
        IReadOnlyDictionary<string, string> names = await hand.NamesAsync(hand.Treated.NonConformances.Select(one => one.Steps[0].By), cancellation);
        return new List(
            [.. hand.Treated.NonConformances.Reverse().Select(one => new Line(
                one.Number,
                one.Stage,
                one.Proposal?.Disposition,
                one.Reason,
                one.Piles(),
                [.. one.Findings.Select(finding => finding.Check).Distinct()],
                one.DueOn,
                hand.IsOverdue(one),
                one.Steps[0].At,
                names[one.Steps[0].By]) { Accounts = one.Accounts() })],
            hand.TimeZone,
            hand.Site.History.Sequence);
    }

    /// <summary>Reads one.</summary>
    /// <returns>Null where there is no such non-conformance.</returns>
    [Needs(Right.See)]
    public async Task<One?> OneAsync(Permit permit, int number, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        SiteAtHand hand = await SiteAtHand.ReadAsync(permit, histories, store, clock, cancellation);
        if (hand.Site.Find(number) is not { } one) return null;
        Sheet sheet = TreatmentSheets.Of(one);
        return new One(
            one, hand.IsOverdue(one), sheet, sheet.Hash, await hand.NamesAsync(one.Steps.Select(step => step.By), cancellation), hand.TimeZone, hand.Site.History.Sequence);
    }
}
