using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;

namespace SiteProgress.Jobs.Matches;

/// <summary>A part of the site around waiting records that lie near one another, to be drawn. Places are on the site grid, metres.</summary>
/// <param name="Piles">Planned piles in this part.</param>
/// <param name="Records">The waiting records.</param>
/// <param name="SpacingMetres">Least spacing of the piles here, metres.</param>
public sealed record MatchPlan(IReadOnlyList<PlanPile> Piles, IReadOnlyList<PlanRecord> Records, double SpacingMetres);

/// <summary>A planned pile of a plan.</summary>
/// <param name="Number">Its number.</param>
/// <param name="At">Design position.</param>
/// <param name="DiameterMetres">Design diameter, metres.</param>
/// <param name="IsHeld">True where another record is adopted for it.</param>
public sealed record PlanPile(string Number, SiteCoordinate At, double DiameterMetres, bool IsHeld);

/// <summary>A waiting record of a plan.</summary>
/// <param name="Sequence">Sequence of the record.</param>
/// <param name="Number">Number as recorded.</param>
/// <param name="At">Where it lies; the place of the pile it names where its own lies elsewhere.</param>
/// <param name="IsElsewhere">True where its position lies outside this part or is not recorded.</param>
/// <param name="Named">The planned pile its number names; null where none does.</param>
public sealed record PlanRecord(long Sequence, string Number, SiteCoordinate At, bool IsElsewhere, string? Named);

/// <summary>Gathers waiting records into parts of the site that can be looked at in one drawing.</summary>
internal sealed class MatchPlans
{
    // Beyond this a drawing shows no numbers that a person could read; the rest gets drawings of its own.
    private const int MostRecordsOfPlan = 60;

    // Records further apart than four spacings are looked at apart.
    private const double ReachesApart = 8;

    private readonly DesignIndex design;
    private readonly HashSet<string> held;

    public MatchPlans(DerivedSite site)
    {
        design = new DesignIndex(site.Piles.Select(pile => pile.Judgement.Pile), site.History.Settings!);
        held = [.. site.Installations.Select(one => one.Match.Adopted).OfType<string>()];
    }

    /// <summary>The plans of one group, from the first record on. A record without a position and without a planned number is in none.</summary>
    public IReadOnlyList<MatchPlan> Of(IEnumerable<DerivedInstallation> records)
    {
        PlanRecord[] placed = [.. records.Select(Place).OfType<PlanRecord>()];
        if (placed.Length == 0) return [];
        double reach = placed.Max(ReachAt);
        double cell = reach * ReachesApart;
        Dictionary<(long X, long Y), List<PlanRecord>> cells = placed.GroupBy(one => CellOf(one.At, cell)).ToDictionary(group => group.Key, group => group.ToList());
        List<MatchPlan> plans = [];
        foreach (PlanRecord one in placed)
        {
            if (cells.TryGetValue(CellOf(one.At, cell), out List<PlanRecord>? left) && left.Contains(one)) plans.Add(Draw(Take(cells, one, cell), reach));
        }

        return plans;
    }

    private PlanRecord? Place(DerivedInstallation one)
    {
        string number = one.Located.Recorded.PileNumber;
        PlannedPile? named = design.Find(number);
        SiteCoordinate? at = one.Located.Position;
        if (at is { } here && design.Near(here, 3 * design.LargestReachMetres).Any()) return new PlanRecord(one.Located.Sequence, number, here, false, named?.Number);
        if (named is not null) return new PlanRecord(one.Located.Sequence, number, named.Position, true, named.Number);
        return at is { } alone ? new PlanRecord(one.Located.Sequence, number, alone, false, null) : null;
    }

    private double ReachAt(PlanRecord one)
    {
        PlannedPile? pile = one.Named is null ? design.Near(one.At, 3 * design.LargestReachMetres).FirstOrDefault() : design.Find(one.Named);
        double reach = pile is null ? 0 : design.ReachMetres(pile);
        return reach > 0 ? reach : 1;
    }

    private static (long X, long Y) CellOf(SiteCoordinate at, double cell) => ((long)Math.Floor(at.XMetres / cell), (long)Math.Floor(at.YMetres / cell));

    /// <summary>Takes the records that hang together with one, through cells side by side.</summary>
    private static List<PlanRecord> Take(Dictionary<(long X, long Y), List<PlanRecord>> cells, PlanRecord first, double cell)
    {
        List<PlanRecord> taken = [];
        Queue<(long X, long Y)> open = new([CellOf(first.At, cell)]);
        while (open.TryDequeue(out (long X, long Y) at) && taken.Count < MostRecordsOfPlan)
        {
            if (!cells.TryGetValue(at, out List<PlanRecord>? here)) continue;
            int room = Math.Min(here.Count, MostRecordsOfPlan - taken.Count);
            taken.AddRange(here[..room]);
            here.RemoveRange(0, room);
            if (here.Count == 0) cells.Remove(at);
            for (long x = at.X - 1; x <= at.X + 1; x++)
            {
                for (long y = at.Y - 1; y <= at.Y + 1; y++) open.Enqueue((x, y));
            }
        }

        return taken;
    }

    private MatchPlan Draw(List<PlanRecord> records, double reach)
    {
        double margin = 3 * reach;
        (double left, double right) = (records.Min(one => one.At.XMetres) - margin, records.Max(one => one.At.XMetres) + margin);
        (double low, double high) = (records.Min(one => one.At.YMetres) - margin, records.Max(one => one.At.YMetres) + margin);
        SiteCoordinate middle = new((left + right) / 2, (low + high) / 2);
        PlanPile[] piles =
        [
            .. design.Near(middle, double.Hypot(right - left, high - low) / 2)
                .Where(pile => pile.Position.XMetres >= left && pile.Position.XMetres <= right && pile.Position.YMetres >= low && pile.Position.YMetres <= high)
                .OrderBy(pile => pile.Number, StringComparer.Ordinal)
                .Select(pile => new PlanPile(pile.Number, pile.Position, pile.DiameterMetres, held.Contains(pile.Number))),
        ];
        return new MatchPlan(piles, [.. records.OrderBy(one => one.Sequence)], 2 * reach);
    }
}
