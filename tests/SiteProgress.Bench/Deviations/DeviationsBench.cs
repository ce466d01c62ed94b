using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using SiteProgress.Core.Bias;
using SiteProgress.Core.Deviations;
using SiteProgress.DemoGenerator.BiasStudy;

namespace SiteProgress.Bench.Deviations;

/// <summary>
/// The figures of 100,800 installations (9 casings, 200 days) against the same figures in NumPy, both from arrays in memory, and the
/// whole search for bias on them. Every figure is compared with NumPy's before a time counts.
/// </summary>
internal static class DeviationsBench
{
    private const int Days = 200, SetUpsPerDay = 56, Turns = 20;
    private const double ReviewGoalMilliseconds = 300;
    private const string Ours = "SiteProgress", NumPy = "NumPy", Review = "whole review";

    public static async Task<IReadOnlyList<Outcome>> RunAsync(TextWriter output)
    {
        BiasPile[] piles = StudyPiles.Of(StudySite.Make(ErrorFamily.HeavyTailedWithDrift, 1, Days, new PlantedBias(1, 3, 0.16, -0.12, 60, 67), SetUpsPerDay));
        (JudgedDeviation[] judged, int[] setUps) = Judged(piles);
        string file = Path.Combine(Directory.CreateTempSubdirectory("siteprogress-deviations-").FullName, "rows");
        await File.WriteAllBytesAsync(file, MemoryMarshal.AsBytes(Rows(judged, setUps).AsSpan()).ToArray());
        BiasFindings? findings = null;
        double[] theirs = [];
        IReadOnlyDictionary<string, IReadOnlyList<double>> milliseconds = await Rounds.RunAsync([Ours, NumPy, Review], name => Task.FromResult(name switch
        {
            Ours => Median(() => DeviationFigures.Of(judged, setUps)),
            NumPy => Peer(file, out theirs),
            _ => Once(() => findings = BiasReview.Run(piles, [], StudyPiles.Site)),
        }));
        double difference = Difference(Flat(DeviationFigures.Of(judged, setUps)!), theirs);
        await output.WriteLineAsync(Text($"{piles.Length} installations, 9 casings, {Days} days; median of {Rounds.Counted} (least to most)"));
        foreach ((string name, IReadOnlyList<double> values) in milliseconds)
            await output.WriteLineAsync(Text($"{name,-16}{Rounds.Median(values),9:0.00} ms ({values.Min():0.00} to {values.Max():0.00})"));
        await output.WriteLineAsync(Text($"largest relative difference of a figure from NumPy's {difference:0.0e0}"));
        foreach (BiasClaim claim in findings!.Claims) await output.WriteLineAsync(claim.Sentence);
        return
        [
            new("deviations-figures", Rounds.Median(milliseconds[NumPy]) / Rounds.Median(milliseconds[Ours]), 1),
            new("deviations-figures-agree-to-1e-9", 1e-9 / Math.Max(difference, 1e-16), 1),
            new("deviations-review-within-300-ms", ReviewGoalMilliseconds / Rounds.Median(milliseconds[Review]), 1),
        ];
    }

    private static (JudgedDeviation[] Judged, int[] SetUps) Judged(BiasPile[] piles)
    {
        Dictionary<(string, string?), int> numbers = [];
        return (
            Array.ConvertAll(piles, pile => new JudgedDeviation(
                new PositionDeviation(pile.DeviationEastMetres, pile.DeviationNorthMetres, -pile.DeviationNorthMetres, pile.DeviationEastMetres), pile.Limit)),
            Array.ConvertAll(piles, pile =>
            {
                if (!numbers.TryGetValue((pile.Barge, pile.SetUp), out int number)) numbers[(pile.Barge, pile.SetUp)] = number = numbers.Count;
                return number;
            }));
    }

    private static double[] Rows(JudgedDeviation[] judged, int[] setUps) => judged.SelectMany((one, index) => new[]
    {
        one.Deviation.EastMetres, one.Deviation.NorthMetres, one.Deviation.AlongMetres, one.Deviation.AcrossMetres, one.Limit.RadialMetres, setUps[index],
    }).ToArray();

    private static double Peer(string file, out double[] figures)
    {
        List<double> times = [];
        double[] read = [];
        string script = Path.Combine(AppContext.BaseDirectory, "Deviations", "figures-peer.py");
        string answer = Coordinates.ProjPeer.Run("/usr/bin/python3", [script, file, Turns.ToString(CultureInfo.InvariantCulture)], _ => { });
        foreach (string line in answer.Split('\n', StringSplitOptions.RemoveEmptyEntries))
        {
            string[] words = line.Split(' ');
            double[] numbers = words.Skip(1).Select(word => double.Parse(word, CultureInfo.InvariantCulture)).ToArray();
            if (words[0] == "ms") times.Add(numbers[0]);
            else read = numbers;
        }

        figures = read;
        return Rounds.Median(times);
    }

    private static double Median(Action work) => Rounds.Median(Enumerable.Range(0, Turns).Select(_ => Once(work)).ToArray());

    private static double Once(Action work)
    {
        long begin = Stopwatch.GetTimestamp();
        work();
        return Stopwatch.GetElapsedTime(begin).TotalMilliseconds;
    }

    private static double[] Flat(DeviationFigures figures) =>
    [
        figures.Count, .. new[] { figures.East, figures.North, figures.Along, figures.Across }.SelectMany(axis => new[] { axis.MeanMetres, axis.StandardDeviationMetres!.Value, axis.RmseMetres }),
        figures.RadialRmseMetres, figures.MedianRadialMetres, figures.Percentile95RadialMetres, figures.LargestRadialMetres, figures.Accuracy95.RadiusMetres!.Value,
        figures.Within.ShareRatio, figures.Within.LowerRatio, figures.Within.UpperRatio, figures.Ellipse!.SemiMajorMetres, figures.Ellipse.SemiMinorMetres,
    ];

    private static double Difference(double[] ours, double[] theirs)
        => ours.Length != theirs.Length
            ? throw new InvalidDataException($"{theirs.Length} figures came from the peer, {ours.Length} were expected.")
            : ours.Zip(theirs, (mine, other) => Math.Abs(mine - other) / Math.Max(Math.Abs(other), 1e-3)).Max();

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
