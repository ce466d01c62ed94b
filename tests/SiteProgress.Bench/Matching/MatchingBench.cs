using System.Diagnostics;
using System.Globalization;
using SiteProgress.Core.Matching;
using SiteProgress.DemoGenerator.BiasStudy;

namespace SiteProgress.Bench.Matching;

/// <summary>
/// The assignment of records to piles against OR-Tools on groups of every shape: the same sums, the time at three sizes and how it
/// grows; thousands of small problems; and false alarms on sites where nothing is wrong.
/// </summary>
internal static class MatchingBench
{
    private const int SmallProblems = 20_000, CleanSites = 20;
    private static readonly int[] Sizes = [1_000, 10_000, 100_000];

    // Where all costs tie both peers take time with the square of the size, minutes for 100,000: there they are timed up to 10,000.
    private static readonly (string Name, Func<int, Random, (int Columns, Choice[][] Rows)> Make, int PeersUpTo)[] Shapes =
    [
        ("one chain", AssignmentCases.Chain, 100_000),
        ("one tied chain", AssignmentCases.TiedChain, 10_000),
        ("one field", AssignmentCases.Field, 100_000),
        ("many stars", AssignmentCases.Stars, 100_000),
    ];

    public static async Task<IReadOnlyList<Outcome>> RunAsync(TextWriter output)
    {
        await output.WriteLineAsync("assignment, records against piles; medians of five, in turn; the peer is the faster of OR-Tools' two solvers\nshape            records   ours ms   cost scaling ms   flow ms   growth of ours for ten times the records");
        double least = double.PositiveInfinity;
        foreach ((string shape, var make, int peersUpTo) in Shapes)
        {
            double before = 0;
            foreach (int size in Sizes)
            {
                (double ours, double scaling, double flow) = await TimeAsync(make(size, new Random(size)), size <= peersUpTo);
                string growth = before > 0 ? Text($"{ours / before,12:0.0}") : "";
                await output.WriteLineAsync(Text($"{shape,-16}{size,8}{ours * 1000,10:0.0}{scaling * 1000,18:0.0}{flow * 1000,10:0.0}{growth}"));
                before = ours;
                if (size == peersUpTo) least = Math.Min(least, Math.Min(scaling, flow) / ours);
            }
        }

        int differing = Differing();
        await output.WriteLineAsync(Text($"{SmallProblems} small problems of any shape: {differing} sums differ from OR-Tools'"));
        int alarms = await FalseAlarmsAsync(output);
        return [new Outcome("matching", least, 1), new Outcome("matching-same-sums", differing == 0 ? 1 : 0, 1), new Outcome("matching-no-false-alarm", alarms == 0 ? 1 : 0, 1)];
    }

    private static async Task<(double Ours, double Scaling, double Flow)> TimeAsync((int Columns, Choice[][] Rows) problem, bool withPeers)
    {
        (int columns, Choice[][] rows) = problem;
        HashSet<long> sums = [];
        var times = await Rounds.RunAsync(withPeers ? ["ours", "scaling", "flow"] : ["ours"], contender =>
        {
            Stopwatch watch = Stopwatch.StartNew();
            long sum = contender switch
            {
                "ours" => AssignmentCases.Sum(Assignment.Solve(columns, rows, AssignmentCases.CostOfNone), rows),
                "scaling" => OrToolsAssignment.Sum(columns, rows),
                _ => OrToolsAssignment.SumByFlow(columns, rows),
            };
            sums.Add(sum);
            return Task.FromResult(watch.Elapsed.TotalSeconds);
        });
        if (sums.Count != 1) throw new InvalidOperationException($"The solvers disagree: {string.Join(", ", sums)}.");
        double Of(string contender) => times.TryGetValue(contender, out IReadOnlyList<double>? all) ? Rounds.Median(all) : double.NaN;
        return (Of("ours"), Of("scaling"), Of("flow"));
    }

    private static int Differing()
    {
        Random chance = new(20260405);
        int differing = 0;
        for (int round = 0; round < SmallProblems; round++)
        {
            (int columns, Choice[][] rows) = AssignmentCases.Small(chance);
            if (AssignmentCases.Sum(Assignment.Solve(columns, rows, AssignmentCases.CostOfNone), rows) != OrToolsAssignment.Sum(columns, rows)) differing++;
        }

        return differing;
    }

    private static async Task<int> FalseAlarmsAsync(TextWriter output)
    {
        int all = 0;
        foreach (ErrorFamily family in Enum.GetValues<ErrorFamily>())
        {
            // Seeds that neither the tests nor the making of the rules looked at.
            FalseAlarms[] sites = [.. Enumerable.Range(1_000, CleanSites).Select(seed => FalseAlarms.Of(family, seed))];
            int named = sites.Sum(site => site.Named), elsewhere = sites.Sum(site => site.Elsewhere);
            await output.WriteLineAsync(Text($"{CleanSites} clean sites, {family,-21}{sites.Sum(site => site.Records),7} records: {named} right records named a mistake, {elsewhere} taken for another pile"));
            all += named + elsewhere;
        }

        return all;
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
