using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Core.Derivation;

/// <summary>The planned piles in force: of every number, the row recorded last.</summary>
internal static class DesignInForce
{
    public static IReadOnlyList<PlannedPile> Of(SiteHistory history, SiteFrames frames, SiteSettings settings)
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

        return piles.OrderBy(pile => pile.Number, StringComparer.Ordinal).ToArray();
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
