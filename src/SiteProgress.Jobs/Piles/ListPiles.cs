using System.Runtime.CompilerServices;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Storage;
using SiteProgress.Storage.Derived;

namespace SiteProgress.Jobs.Piles;

/// <summary>The piles of a site as a list that can be filtered, ordered and read piece by piece.</summary>
public sealed class ListPiles(IDbContextFactory<SiteProgressDb> contexts)
{
    /// <summary>Most lines in one piece.</summary>
    public static readonly int MostLines = 1000;

    /// <summary>A piece of the list.</summary>
    /// <param name="Total">Piles the filter leaves.</param>
    /// <param name="Piles">The lines of this piece.</param>
    public sealed record Page(int Total, IReadOnlyList<PileLine> Piles);

    /// <summary>What the list can be filtered by, and how many piles each state holds under the rest of the filter.</summary>
    /// <param name="Total">Piles the whole filter leaves.</param>
    /// <param name="Zones">Zones of the site.</param>
    /// <param name="Barges">Barges of the site.</param>
    /// <param name="Days">Working days on which a pile was completed, the newest first.</param>
    /// <param name="ByState">Number of piles in each state that has any.</param>
    /// <param name="LevelDatum">Datum of all levels.</param>
    /// <param name="TimeZone">Time zone of the site.</param>
    /// <param name="RecordSequence">The last record the list follows from.</param>
    public sealed record Choices(
        int Total,
        IReadOnlyList<string> Zones,
        IReadOnlyList<string> Barges,
        IReadOnlyList<LocalDate> Days,
        IReadOnlyDictionary<PileState, int> ByState,
        string LevelDatum,
        string TimeZone,
        long RecordSequence);

    /// <summary>Reads a piece of the list with the number of all piles the filter leaves.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="filter">Which piles.</param>
    /// <param name="order">In which order.</param>
    /// <param name="descending">True for the largest first.</param>
    /// <param name="skip">Lines to leave out at the start.</param>
    /// <param name="take">Lines wanted, at most <see cref="MostLines"/>.</param>
    /// <param name="cancellation">Stops the work.</param>
    [Needs(Right.See)]
    public async Task<Page> PageAsync(
        Permit permit, PileFilter filter, PileOrder order, bool descending, int skip, int take, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        await using SiteProgressDb db = await contexts.CreateDbContextAsync(cancellation);
        IQueryable<PileRow> piles = Of(db, permit.Site).Where(filter);
        int total = await piles.CountAsync(cancellation);
        return new Page(total, await LinesAsync(piles, order, descending, skip, take, cancellation));
    }

    /// <summary>Reads a piece of the list whose length is known already, as a page does that is scrolled.</summary>
    [Needs(Right.See)]
    public async Task<IReadOnlyList<PileLine>> LinesAsync(
        Permit permit, PileFilter filter, PileOrder order, bool descending, int skip, int take, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        await using SiteProgressDb db = await contexts.CreateDbContextAsync(cancellation);
        return await LinesAsync(Of(db, permit.Site).Where(filter), order, descending, skip, take, cancellation);
    }

    /// <summary>Reads what the list can be filtered by.</summary>
    [Needs(Right.See)]
    public async Task<Choices?> ChoicesAsync(Permit permit, PileFilter filter, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        await using SiteProgressDb db = await contexts.CreateDbContextAsync(cancellation);
        SiteStateRow? state = await db.SiteStates.AsNoTracking().FirstOrDefaultAsync(row => row.Site == permit.Site, cancellation);
        if (state?.Settings is not { } text) return null;
        SiteSettings settings = JsonSerializer.Deserialize<SiteSettings>(text, RecordJson.Options)!;
        Dictionary<PileState, int> byState = await Of(db, permit.Site).Where(filter with { States = [] })
            .GroupBy(pile => pile.State)
            .Select(group => new { group.Key, Count = group.Count() })
            .ToDictionaryAsync(group => (PileState)group.Key, group => group.Count, cancellation);
        List<DateOnly> days = await db.DayProductions.Where(day => day.Site == permit.Site && day.Piles > 0)
            .Select(day => day.WorkingDay).Distinct().OrderByDescending(day => day).ToListAsync(cancellation);
        return new Choices(
            byState.Where(one => filter.States.Count == 0 || filter.States.Contains(one.Key)).Sum(one => one.Value),
            [.. settings.Zones.Select(zone => zone.Code)],
            [.. settings.Barges.Select(barge => barge.Name)],
            [.. days.Select(LocalDate.FromDateOnly)],
            byState,
            settings.LevelDatum.Name,
            settings.TimeZone,
            state.Sequence);
    }

    /// <summary>The whole filtered list, read from the store as it is used, never held as a whole.</summary>
    [Needs(Right.See)]
    public Task<IAsyncEnumerable<PileLine>> AllAsync(Permit permit, PileFilter filter, PileOrder order, bool descending, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        return Task.FromResult(StreamAsync(permit.Site, filter, order, descending, cancellation));
    }

    private async IAsyncEnumerable<PileLine> StreamAsync(
        int site, PileFilter filter, PileOrder order, bool descending, [EnumeratorCancellation] CancellationToken cancellation)
    {
        await using SiteProgressDb db = await contexts.CreateDbContextAsync(cancellation);
        IAsyncEnumerable<PileLine> lines = Of(db, site).Where(filter).InOrder(order, descending).AsLines().AsAsyncEnumerable();
        await foreach (PileLine line in lines.WithCancellation(cancellation)) yield return line;
    }

    private static async Task<IReadOnlyList<PileLine>> LinesAsync(
        IQueryable<PileRow> piles, PileOrder order, bool descending, int skip, int take, CancellationToken cancellation)
        => await piles.InOrder(order, descending)
            .Skip(Math.Max(0, skip)).Take(Math.Clamp(take, 1, MostLines))
            .AsLines().ToListAsync(cancellation);

    private static IQueryable<PileRow> Of(SiteProgressDb db, int site) => db.Piles.AsNoTracking().Where(pile => pile.Site == site);
}
