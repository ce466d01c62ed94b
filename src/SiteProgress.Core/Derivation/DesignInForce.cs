using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Core.Derivation;

/// <summary>The planned piles in force: of every number, the row recorded last; and the additional piles that were approved.</summary>
internal static class DesignInForce
{
    public static IReadOnlyList<PlannedPile> Of(
        SiteHistory history, SiteFrames frames, SiteSettings settings, IReadOnlyList<(AdditionalPile Pile, long Sequence)> additional)
    {
        Dictionary<long, int> revisions = history.Batches.ToDictionary(batch => batch.Sequence, batch => batch.Body.AdjustmentRevision);
        Dictionary<string, BatchRow<AsPlanned>> inForce = new(StringComparer.OrdinalIgnoreCase);
        foreach (BatchRow<AsPlanned> row in history.Planned) inForce[row.Value.Number] = row;
        List<PlannedPile> piles = [];
        foreach (IGrouping<int, BatchRow<AsPlanned>> together in inForce.Values.GroupBy(row => revisions[row.Batch]))
        {
            BatchRow<AsPlanned>[] rows = together.ToArray();
            SiteCoordinate?[] positions = frames.ToSite(Array.ConvertAll(rows, row => (RecordedPosition?)row.Value.Position), together.Key);
            piles.AddRange(rows.Select((row, index) => Pile(row, positions[index]!.Value, settings.FindZone(row.Value.Zone))));
        }

        AddApproved(piles, additional);
        return piles.OrderBy(pile => pile.Number, StringComparer.Ordinal).ToArray();
    }

    /// <summary>A number of a schedule goes before an additional pile of the same number: the designer drew it later.</summary>
    private static void AddApproved(List<PlannedPile> piles, IReadOnlyList<(AdditionalPile Pile, long Sequence)> additional)
    {
        if (additional.Count == 0) return;
        Dictionary<string, PlannedPile> known = piles.ToDictionary(pile => pile.Number, StringComparer.OrdinalIgnoreCase);
        foreach ((AdditionalPile pile, long sequence) in additional)
        {
            if (!known.TryGetValue(pile.Replaces, out PlannedPile? original) || known.ContainsKey(pile.Number)) continue;
            piles.Add(known[pile.Number] = original with
            {
                Sequence = sequence,
                Number = pile.Number,
                Position = new SiteCoordinate(pile.XMetres, pile.YMetres),
                DiameterMetres = pile.DiameterMetres ?? original.DiameterMetres,
                TopLevelMetres = pile.TopLevelMetres ?? original.TopLevelMetres,
                TipLevelMetres = pile.TipLevelMetres ?? original.TipLevelMetres,
                Remark = $"Additional pile, replaces {original.Number}.",
            });
        }
    }

    private static PlannedPile Pile(BatchRow<AsPlanned> row, SiteCoordinate position, Zone? zone) => new(
        row.Sequence,
        row.Value.Number,
        zone?.Code ?? row.Value.Zone,
        position,
        row.Value.DiameterMetres ?? zone?.DesignDiameterMetres ?? 0,
        row.Value.TopLevelMetres ?? zone?.TopLevelMetres ?? 0,
        row.Value.TipLevelMetres ?? zone?.TipLevelMetres,
        row.Value.LeastLengthMetres ?? zone?.LeastLengthMetres,
        row.Value.Remark);
}
