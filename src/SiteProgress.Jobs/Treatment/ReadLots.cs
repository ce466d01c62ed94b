using Microsoft.EntityFrameworkCore;
using Npgsql;
using SiteProgress.Core.Treatment;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;
using SiteProgress.Storage;

namespace SiteProgress.Jobs.Treatment;

/// <summary>Lots: the list, one of them with its summary, and the summary of a selection that is not a lot yet.</summary>
public sealed class ReadLots(SiteHistories histories, NpgsqlDataSource store, TimeProvider clock, IDbContextFactory<SiteProgressDb> contexts)
{
    /// <summary>The list.</summary>
    /// <param name="All">Lots, the latest first.</param>
    /// <param name="Names">Names of those who recorded.</param>
    /// <param name="TimeZone">Time zone of the site.</param>
    /// <param name="RecordSequence">The last record this follows from.</param>
    public sealed record List(IReadOnlyList<Lot> All, IReadOnlyDictionary<string, string> Names, string TimeZone, long RecordSequence);

    /// <summary>A lot.</summary>
    /// <param name="Lot">The lot.</param>
    /// <param name="Summary">Its summary as it stands.</param>
    /// <param name="Hash">Hash of the summary's sheet; it is sent back with the decision.</param>
    /// <param name="Names">Names of those who recorded.</param>
    /// <param name="SiteName">Name of the site.</param>
    /// <param name="TimeZone">Time zone of the site.</param>
    /// <param name="RecordSequence">The last record this follows from.</param>
    public sealed record One(Lot Lot, LotSummary Summary, string Hash, IReadOnlyDictionary<string, string> Names, string SiteName, string TimeZone, long RecordSequence);

    /// <summary>A selection of piles.</summary>
    /// <param name="Piles">How many it holds.</param>
    /// <param name="Submittable">How many of them can be submitted in a lot.</param>
    /// <param name="Summary">Its summary as it stands; null where it holds too many.</param>
    /// <param name="Hash">Hash of the summary's sheet.</param>
    /// <param name="RecordSequence">The last record this follows from.</param>
    public sealed record Selected(int Piles, int Submittable, LotSummary? Summary, string? Hash, long RecordSequence);

    /// <summary>Reads the list.</summary>
    [Needs(Right.See)]
    public async Task<List> ListAsync(Permit permit, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        SiteAtHand hand = await SiteAtHand.ReadAsync(permit, histories, store, clock, cancellation);
        return new List(
            [.. hand.Treated.Lots.Reverse()],
            await hand.NamesAsync(hand.Treated.Lots.SelectMany(lot => new[] { lot.Submitted.By, lot.Decision?.By }), cancellation),
            hand.TimeZone,
            hand.Site.History.Sequence);
    }

    /// <summary>Reads one with its summary.</summary>
    /// <returns>Null where there is no such lot.</returns>
    [Needs(Right.See)]
    public async Task<One?> OneAsync(Permit permit, int number, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        SiteAtHand hand = await SiteAtHand.ReadAsync(permit, histories, store, clock, cancellation);
        if (hand.Treated.Lots.FirstOrDefault(one => one.Number == number) is not { } lot) return null;
        LotSummary summary = SelectionSheet.Of(hand.Site, lot);
        return new One(
            lot, summary, summary.Sheet.Hash, await hand.NamesAsync([lot.Submitted.By, lot.Decision?.By], cancellation),
            hand.Site.History.Settings!.Name, hand.TimeZone, hand.Site.History.Sequence);
    }

    /// <summary>Sums up a selection of piles.</summary>
    [Needs(Right.See)]
    public async Task<Selected?> SelectedAsync(Permit permit, PileSelection selection, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        IReadOnlyList<string> numbers = await selection.NumbersAsync(contexts, permit.Site, cancellation);
        SiteAtHand hand = await SiteAtHand.ReadAsync(permit, histories, store, clock, cancellation);
        if (hand.Site.History.Settings is null) return null;
        if (numbers.Count > PileSelection.MostPiles) return new Selected(numbers.Count, 0, null, null, hand.Site.History.Sequence);
        LotSummary summary = SelectionSheet.Of(hand.Site, selection.Words, numbers);
        return new Selected(
            numbers.Count, numbers.Count(number => SubmitLot.CanBeSubmitted(hand.Site, number)), summary, summary.Sheet.Hash, hand.Site.History.Sequence);
    }
}
