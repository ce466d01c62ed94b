using System.Diagnostics;
using System.Globalization;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Core.SetUps;
using SiteProgress.Planning;

namespace SiteProgress.Bench;

/// <summary>
/// What the demo has left in its three zones and 20 generated remainders of 500 to 3,000 piles, within ten seconds each: set-ups against the bound of any set-ups within the anchors
/// laid, and against the bound of any anchors whatever they cost; and hours against working field by field and row by row.
/// </summary>
internal static class SetUpsBench
{
    private const double Goal = 0.98;
    private const int Generated = 20;

    public static async Task<IReadOnlyList<Outcome>> RunAsync(TextWriter output)
    {
        await output.WriteLineAsync("remainder           piles  set-ups  bound  ratio  in anchors  anchors  bound    hours  ratio  row by row  saved  seconds");
        double least = 1, within = 1, slowest = 0, saved = 0, rows = 0;
        (string Name, BargePlanRequest Request)[] remainders =
        [
            .. await Task.WhenAll(DemoRemainder.OfZoneAsync("A", ',', 6.3), DemoRemainder.OfZoneAsync("B", ';', 6.3), DemoRemainder.OfZoneAsync("C", '\t', 6.3)),
            .. Enumerable.Range(0, Generated).Select(remainder => ($"generated {remainder + 1}", Made(remainder))),
        ];
        foreach ((string name, BargePlanRequest request) in remainders)
        {
            long begin = Stopwatch.GetTimestamp();
            BargePlanResult plan = BargePlanner.Plan(request, new SolverLimit(9));
            double seconds = Stopwatch.GetElapsedTime(begin).TotalSeconds;
            double ratio = (double)plan.Bounds.Least.SetUps / plan.Bounds.Plan.SetUps;
            (least, slowest) = (Math.Min(least, ratio), Math.Max(slowest, seconds));
            within = Math.Min(within, (double)plan.Bounds.WithinAnchors / plan.Bounds.Plan.SetUps);
            saved += plan.RowByRow.WorkHours - plan.Bounds.Plan.WorkHours;
            rows += plan.RowByRow.WorkHours;
            await output.WriteLineAsync(string.Create(CultureInfo.InvariantCulture,
                $"{name,-18}{request.Piles.Count,8}{plan.Bounds.Plan.SetUps,9}{plan.Bounds.Least.SetUps,7}{ratio,7:0.000}{plan.Bounds.WithinAnchors,12}{plan.Bounds.Plan.Anchors,9}{plan.Bounds.Least.Anchors,7}{plan.Bounds.Plan.WorkHours,9:0}{plan.Bounds.Least.WorkHours / plan.Bounds.Plan.WorkHours,7:0.000}{plan.RowByRow.WorkHours,12:0}{plan.RowByRow.WorkHours - plan.Bounds.Plan.WorkHours,7:0}{seconds,9:0.0}"));
        }

        await output.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"{saved:0} of {rows:0} h saved against field by field and row by row, {saved / rows * 100:0.0} %; 5 h for a laying of the anchors, 80 min for a set-up"));
        return [new("setups-against-the-bound-within-the-anchors", within, Goal), new("setups-against-the-bound-of-any-anchors", least, Goal), new("setups-in-ten-seconds", 10 / slowest, 1)];
    }

    /// <summary>A grid with blocks built, rows half done, and single piles left out; its casings one, two or three piles apart.</summary>
    private static BargePlanRequest Made(int remainder)
    {
        Random chance = new(4_000 + remainder);
        int wanted = chance.Next(500, 3_001), step = 1 + (remainder % 3);
        double second = remainder % 2 == 0 ? 2.1 : 2.6;
        int columns = chance.Next(40, 110), rows = 10 + (wanted * 2 / columns);
        bool[,] built = new bool[columns, rows];
        for (int block = 0; block < 6; block++)
        {
            int left = chance.Next(columns), low = chance.Next(rows), width = chance.Next(5, 25), height = chance.Next(2, 10);
            for (int column = left; column < Math.Min(columns, left + width); column++)
                for (int row = low; row < Math.Min(rows, low + height); row++) built[column, row] = true;
        }

        double scattered = 0.02 + (0.25 * chance.NextDouble());
        List<OpenPile> piles = [];
        for (int row = 0; row < rows && piles.Count < wanted; row++)
            for (int column = 0; column < columns && piles.Count < wanted; column++)
                if (!built[column, row] && chance.NextDouble() > scattered) piles.Add(new OpenPile($"{row}-{column}", new SiteCoordinate(column * 2.1, row * second)));
        Barge barge = new("barge", [.. Enumerable.Range(1, 3).Select(number => new Casing(number, 1.2, 1.3, 26, (number - 2) * step * 2.1))], new Hull(60, 24));
        return new BargePlanRequest(barge, piles, [0, 90], 0.05, new AnchorReach(38, 9), new SiteCoordinate(0, 0), 5, 80, [], 10, [], null);
    }
}
