using Microsoft.EntityFrameworkCore;
using NodaTime;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;
using SiteProgress.Storage;
using SiteProgress.Storage.Derived;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>Says exactly what withdrawing a batch would change, by the rules that the withdrawal itself will use.</summary>
public sealed class SupposeWithdrawal(IDbContextFactory<SiteProgressDb> database, SiteHistories histories)
{
    /// <summary>What would change; null where the site has no such batch or it was withdrawn already.</summary>
    [Needs(Right.BringIn)]
    public async Task<WithdrawalEffect?> RunAsync(Permit permit, long batch, CancellationToken cancellation)
    {
        permit.Demand(Right.BringIn);
        SiteHistory history = await histories.ReadAsync(permit.Site, cancellation);
        if (history.Batches.FirstOrDefault(one => one.Sequence == batch && one.Withdrawal is null) is not { } found) return null;
        await using SiteProgressDb db = await database.CreateDbContextAsync(cancellation);
        Dictionary<string, PileState> before = await db.Set<PileRow>().AsNoTracking()
            .Where(pile => pile.Site == permit.Site)
            .Select(pile => new { pile.Number, pile.State })
            .ToDictionaryAsync(pile => pile.Number, pile => (PileState)pile.State, cancellation);
        BatchWithdrawnBody body = new(batch, "supposed");
        DerivedSite after = SiteDerivation.Derive(history.With(
            [new RecordEntry(history.Sequence + 1, body.Kind, Instant.MinValue, "", null, RecordJson.ToBytes(body), ChainHash.BeforeFirst)]));
        Dictionary<string, PileState> then = after.Piles.ToDictionary(pile => pile.Judgement.Pile.Number, pile => pile.Judgement.State);
        return new WithdrawalEffect(
            found.Body.RowsRecorded,
            before.Keys.Count(number => !then.ContainsKey(number)),
            before.Where(pile => then.TryGetValue(pile.Key, out PileState state) && state != pile.Value)
                .GroupBy(pile => (From: pile.Value, To: then[pile.Key]))
                .Select(group => new PileStateChange(group.Key.From, group.Key.To, group.Count()))
                .OrderByDescending(change => change.Piles).ToArray());
    }
}

/// <summary>What a withdrawal would change.</summary>
/// <param name="Rows">Records that would no longer count.</param>
/// <param name="PilesGone">Planned piles that would no longer be in the design.</param>
/// <param name="StateChanges">How many piles would go from which state to which.</param>
public sealed record WithdrawalEffect(int Rows, int PilesGone, IReadOnlyList<PileStateChange> StateChanges);

/// <summary>Piles that would change their state alike.</summary>
/// <param name="From">State now.</param>
/// <param name="To">State then.</param>
/// <param name="Piles">How many.</param>
public sealed record PileStateChange(PileState From, PileState To, int Piles);
