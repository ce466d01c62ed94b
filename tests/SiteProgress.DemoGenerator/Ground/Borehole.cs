using SiteProgress.DemoGenerator.Records;
using SiteProgress.DemoGenerator.Site;

namespace SiteProgress.DemoGenerator.Ground;

/// <summary>One standard penetration test: depth below the ground of its borehole, blows of seating and main drive.</summary>
public sealed record PenetrationTest(double Depth, int Seating, int Main);

/// <summary>One borehole: where on the site grid, level of its ground, its last day, and its tests.</summary>
public sealed record Borehole(string Name, PlanePoint At, double GroundLevel, DateOnly Day, IReadOnlyList<PenetrationTest> Tests)
{
    /// <summary>Level of the place in PB-2 where the ground stayed weaker than the contract asks.</summary>
    public const double WeakLevel = -21.0;

    /// <summary>Six boreholes before the work, two a zone, and four between piles that stood by then.</summary>
    public static IReadOnlyList<Borehole> Make(int seed, IReadOnlyList<Installation> installations)
    {
        ChanceSource chance = ChanceSource.For(seed, "boreholes");
        List<Borehole> boreholes = [];
        foreach (var zone in ZoneDesign.All)
        {
            var corner = SiteLayout.CornerOf(zone.Code);
            foreach (var (along, across) in new[] { (22.0, 16.0), (95.0, 41.0) })
            {
                PlanePoint at = new(corner.First + along, corner.Second + across);
                boreholes.Add(new Borehole($"BH-{boreholes.Count + 1}", at, Math.Round(SeabedSurvey.Natural(at), 2), new DateOnly(2026, 2, 9).AddDays(2 * boreholes.Count), Sounded(chance, SeabedSurvey.Natural(at), 0, null)));
            }
        }

        // Between a pile and its neighbour of the next row, a month and more after it was built.
        foreach (var (zone, place) in new[] { ("A", 300), ("A", 620), ("B", 400), ("C", 250) })
        {
            var pile = installations.Where(each => each is { Planned: not null, ReachedTop: true } && each.Zone.Code == zone).OrderBy(each => each.End).ElementAt(place);
            PlanePoint at = new(Math.Round(pile.Planned!.Position.First + 0.9, 2), Math.Round(pile.Planned.Position.Second + (pile.Zone.RowPitch / 2), 2));
            var name = $"PB-{boreholes.Count - 5}";
            var ground = Math.Round(SeabedSurvey.Natural(at) + 2.1, 2);
            boreholes.Add(new Borehole(name, at, ground, new DateOnly(2026, 5, 18).AddDays(boreholes.Count - 6), Sounded(chance, ground, 13, name == "PB-2" ? WeakLevel : null)));
        }

        return boreholes;
    }

    private static PenetrationTest[] Sounded(ChanceSource chance, double ground, int gain, double? weak)
    {
        List<PenetrationTest> tests = [];
        for (var depth = 2.0; depth <= 16.0; depth += 1.5)
        {
            var level = ground - depth;
            double mean = level < -29 ? 24 : 3.5 + (0.25 * Math.Max(0, -13 - level)) + (level < -13.5 ? gain + (gain > 0 ? 0.15 * Math.Max(0, -13 - level) : 0) : gain / 2.0);
            if (weak is { } place && Math.Abs(level - place) < 0.8) mean = 9;
            var main = Math.Max(1, (int)Math.Round(chance.Normal(mean, 1.4)));
            tests.Add(new PenetrationTest(depth, Math.Max(0, main / 3), main));
        }

        return [.. tests];
    }
}
