using System.Diagnostics;
using System.Globalization;
using NetTopologySuite.Algorithm.Locate;
using NetTopologySuite.Geometries;
using NetTopologySuite.Index.HPRtree;
using NetTopologySuite.Operation.Distance;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Design;
using SiteProgress.Core.Design.Layouts;
using SiteProgress.Core.Piles;

namespace SiteProgress.Bench.Design;

/// <summary>
/// A layout of nearly 200,000 piles, and the doubtful ones among 100,000 planned piles of 20 zones, each against NetTopologySuite's indexed
/// locators, distances and tree doing the same; both sides must find the same.
/// </summary>
internal static class DesignBench
{
    private const string Ours = "ours", Peer = "NetTopologySuite";

    public static async Task<IReadOnlyList<Outcome>> RunAsync(TextWriter output)
    {
        LayoutInputs inputs = Area();
        (PlannedPile[] planned, Zone[] zones) = Planned();
        Outcome layout = await CompareAsync(output, "design-layout", () => PileLayout.Of(inputs).Layout!.Piles.Count, () => LaidOut(inputs));
        Outcome doubtful = await CompareAsync(output, "design-doubtful", () => DoubtfulPiles.Among(planned, zones).Doubts.Count, () => Doubts(planned, zones));
        return [layout, doubtful];
    }

    private static async Task<Outcome> CompareAsync(TextWriter output, string name, Func<int> ours, Func<int> peer)
    {
        HashSet<int> found = [];
        IReadOnlyDictionary<string, IReadOnlyList<double>> times = await Rounds.RunAsync([Ours, Peer], contender =>
        {
            long begin = Stopwatch.GetTimestamp();
            found.Add(contender == Ours ? ours() : peer());
            return Task.FromResult(Stopwatch.GetElapsedTime(begin).TotalSeconds);
        });
        (double one, double other) = (Rounds.Median(times[Ours]), Rounds.Median(times[Peer]));
        await output.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"{name,-16} ours {one:0.000} s, {Peer} {other:0.000} s, found {string.Join(" and ", found)}"));
        return found.Count == 1 ? new Outcome(name, other / one, 1) : throw new InvalidOperationException($"{name}: the two found {string.Join(" and ", found)}.");
    }

    /// <summary>A concave area of 240 corners with a part left out, rows at an angle.</summary>
    private static LayoutInputs Area()
    {
        SiteCoordinate[] outer = Star(new Random(5), 240, 480, 640), inner = Star(new Random(6), 40, 60, 120);
        return new LayoutInputs("A", [outer, inner], Pattern.Triangular, 2.37, null, null, new SiteCoordinate(3, 4), 23.7, 1, 2, -12, -28, 15, 0.8, new NumberingRule("A-{count:6}"));
    }

    private static SiteCoordinate[] Star(Random chance, int corners, double least, double most)
        => [.. Enumerable.Range(0, corners).Select(index =>
        {
            double angle = 2 * Math.PI * index / corners, radius = least + ((most - least) * chance.NextDouble());
            return new SiteCoordinate(radius * Math.Cos(angle), radius * Math.Sin(angle));
        })];

    private static int LaidOut(LayoutInputs inputs)
    {
        Polygon area = new(Ring(inputs.Rings[0]), [Ring(inputs.Rings[1])]);
        IndexedPointInAreaLocator inside = new(area);
        IndexedFacetDistance boundary = new(area.Boundary);
        (double sine, double cosine) = Math.SinCos(inputs.RotationDegrees * Math.PI / 180);
        double rows = 2.37 * Math.Sqrt(0.75);
        int half = (int)(1000 / rows), count = 0;
        for (int row = -half; row <= half; row++)
        {
            for (int column = -half; column <= half; column++)
            {
                double along = (2.37 * column) + ((row & 1) * 2.37 / 2), across = row * rows;
                Coordinate at = new(3 + (along * cosine) - (across * sine), 4 + (along * sine) + (across * cosine));
                if (inside.Locate(at) != Location.Exterior && boundary.Distance(new Point(at)) >= inputs.EdgeMetres - 0.001) count++;
            }
        }

        return count;
    }

    private static (PlannedPile[] Piles, Zone[] Zones) Planned()
    {
        Random chance = new(7);
        Limits limits = new(0.15, 0.3, 0.2, 0.05, 1.2, "bench", "bench");
        Zone[] zones = [.. Enumerable.Range(0, 20).Select(zone => new Zone(
            $"Z{zone:00}", "", Pattern.Square, 2.1, null, 2, -12, -28, TipRule.Level, null, null, 0.71, 3.14, "bench", limits, null, [], Corners(zone)))];
        List<PlannedPile> piles = [];
        for (int zone = 0; zone < 20; zone++)
        {
            for (int place = 0; place < 5000; place++)
            {
                // One in a hundred is moved by up to a metre and a half, and a few of those out of their zone.
                (double dx, double dy) = chance.Next(100) == 0 ? (3 * (chance.NextDouble() - 0.5), 3 * (chance.NextDouble() - 0.5)) : (0, 0);
                SiteCoordinate at = new((zone * 105) + 1.05 + (2.1 * (place % 50)) + dx, 1.05 + (2.1 * (place / 50)) + dy);
                piles.Add(new PlannedPile(1, $"Z{zone:00}-{place:0000}", $"Z{zone:00}", at, 2, -12, -28, null, null));
            }
        }

        return ([.. piles], zones);
    }

    private static double[][] Corners(int zone)
        => [[zone * 105, 0], [(zone + 1) * 105, 0], [(zone + 1) * 105, 210], [zone * 105, 210]];

    private static int Doubts(PlannedPile[] piles, Zone[] zones)
    {
        HPRtree<int> tree = new();
        for (int place = 0; place < piles.Length; place++) tree.Insert(new Envelope(At(piles[place])), place);
        tree.Build();
        Polygon[] outlines = [.. zones.Select(zone => new Polygon(Ring([.. zone.Outline.Select(corner => new SiteCoordinate(corner[0], corner[1]))])))];
        IndexedPointInAreaLocator[] inside = [.. outlines.Select(outline => new IndexedPointInAreaLocator(outline))];
        int count = 0;
        for (int place = 0; place < piles.Length; place++)
        {
            Coordinate at = At(piles[place]);
            Envelope around = new(at);
            around.ExpandBy(2);
            count += tree.Query(around).Count(other => other > place && At(piles[other]).Distance(at) < 2 - 0.001);
            bool[] lies = [.. outlines.Select((outline, zone) => outline.EnvelopeInternal.Distance(new Envelope(at)) <= 0.001 && (inside[zone].Locate(at) != Location.Exterior || outline.Distance(new Point(at)) <= 0.001))];
            if (lies.Count(one => one) != 1 || !lies[place / 5000]) count++;
        }

        return count;
    }

    private static Coordinate At(PlannedPile pile) => new(pile.Position.XMetres, pile.Position.YMetres);

    private static LinearRing Ring(IReadOnlyList<SiteCoordinate> corners) => new([.. corners.Append(corners[0]).Select(at => new Coordinate(at.XMetres, at.YMetres))]);
}
