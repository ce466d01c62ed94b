using Microsoft.EntityFrameworkCore;
using SiteProgress.Jobs.Piles;
using SiteProgress.Storage;

namespace SiteProgress.Jobs.Treatment;

/// <summary>Piles named one by one, or by a filter.</summary>
/// <param name="Words">The selection in words, as in an address; kept with the record.</param>
/// <param name="Filter">The filter; null where the piles are named.</param>
/// <param name="Piles">The piles; null where a filter names them.</param>
public sealed record PileSelection(string Words, PileFilter? Filter, IReadOnlyList<string>? Piles = null)
{
    /// <summary>Most piles decided on together.</summary>
    public static readonly int MostPiles = 20_000;

    internal async Task<IReadOnlyList<string>> NumbersAsync(IDbContextFactory<SiteProgressDb> contexts, int site, CancellationToken cancellation)
    {
        if (Piles is not null) return [.. Piles.Distinct(StringComparer.OrdinalIgnoreCase)];
        await using SiteProgressDb db = await contexts.CreateDbContextAsync(cancellation);
        return await db.Piles.AsNoTracking().Where(row => row.Site == site).Where(Filter ?? PileFilter.All)
            .OrderBy(row => row.Number).Select(row => row.Number).Take(MostPiles + 1).ToListAsync(cancellation);
    }
}
