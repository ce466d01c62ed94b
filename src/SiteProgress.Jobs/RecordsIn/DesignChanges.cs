using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>Counts what a pile schedule would change in the design in force.</summary>
internal static class DesignChanges
{
    public static DesignChange Of(SiteHistory history, IEnumerable<RecordBody> rows)
    {
        Dictionary<string, AsPlanned> inForce = new(StringComparer.OrdinalIgnoreCase);
        foreach (BatchRow<AsPlanned> row in history.Planned) inForce[row.Value.Number] = row.Value;
        AsPlanned[] piles = rows.OfType<PilePlannedBody>().Select(body => body.Pile).ToArray();
        int added = piles.Count(pile => !inForce.ContainsKey(pile.Number));
        int unchanged = piles.Count(pile => inForce.TryGetValue(pile.Number, out AsPlanned? before) && before == pile);
        return new DesignChange(added, piles.Length - added - unchanged, unchanged);
    }
}
