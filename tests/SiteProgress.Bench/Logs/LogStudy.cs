using System.Globalization;
using SiteProgress.Core.Logs;
using SiteProgress.DemoGenerator.Logs;

namespace SiteProgress.Bench.Logs;

/// <summary>Interpretation against the truth of generated logs, family by family.</summary>
public sealed class LogStudy
{
    private readonly List<double> _diameterErrors = [], _sandErrors = [], _leastErrors = [];
    private int _hangUpsFound, _falseHangUps, _covered, _leasts, _cyclesRight;

    /// <summary>Hang-ups that were not found but said not to be excluded where they were; and piles of which that was said for nothing.</summary>
    private int _undecided, _doubtedInVain;

    public int Piles { get; private set; }

    public int HangUps { get; private set; }

    public List<string> Broken { get; } = [];

    public double CyclesRightRatio => (double)_cyclesRight / Piles;

    public double DiametersWithinRatio => (double)_diameterErrors.Count(error => Math.Abs(error) <= 0.05) / _diameterErrors.Count;

    public double SandWithinRatio => (double)_sandErrors.Count(error => Math.Abs(error) <= 0.01) / _sandErrors.Count;

    public double CoveredRatio => (double)_covered / _leasts;

    public int HangUpsFound => _hangUpsFound;

    public int HangUpsUndecided => _undecided;

    /// <summary>Neither found nor said not to be excluded: the pile would be called continuous.</summary>
    public int HangUpsMissed => HangUps - _hangUpsFound - _undecided;

    public double DoubtedInVainRatio => (double)_doubtedInVain / Piles;

    public int FalseHangUps => _falseHangUps;

    public static LogStudy Run(string family, int firstSeed, int count)
    {
        var study = new LogStudy();
        for (var seed = firstSeed; seed < firstSeed + count; seed++) study.Take(family, seed);
        return study;
    }

    public string Line(string family) => string.Create(CultureInfo.InvariantCulture,
        $"{family,-8} {Piles,5} piles  cycles {CyclesRightRatio:0.0000}  metres {DiametersWithinRatio:0.0000} (sd {Deviation(_diameterErrors):0.0000})  sand {SandWithinRatio:0.0000} (worst {_sandErrors.Max(Math.Abs):0.0000})  least covered {CoveredRatio:0.0000} (bias {_leastErrors.Average():0.0000}, sd {Deviation(_leastErrors):0.0000})  hang-ups {HangUps}: found {_hangUpsFound}, said undecidable {_undecided}, missed {HangUpsMissed}, false {_falseHangUps}, doubted in vain {_doubtedInVain}");

    private static double Deviation(List<double> values) => Math.Sqrt(values.Average(value => value * value));

    private void Take(string family, int seed)
    {
        var made = LogMaker.Make(family, seed);
        var read = LogInterpreter.Read(LogMaker.Samples(made), LogMaker.Context(made.Design));
        Piles++;
        Compare(made, read, FormattableString.Invariant($"{family} {seed}"));
    }

    private void Compare(MadeLog made, LogInterpretation read, string name)
    {
        var truth = made.Truth;
        if (CyclesAgree(truth, read)) _cyclesRight++;
        else Broken.Add($"{name}: {read.Cycles.Count} cycles of {truth.CycleSand.Count}, lag {made.Gauges.Lag:0.0}, tip noise {made.Gauges.TipNoise:0.000} swell {made.Gauges.SwellTip:0.000}, spacing {made.Gauges.Spacing:0.0}");
        var sand = (read.SandLeftCubicMetres!.Value / truth.Sand) - 1;
        _sandErrors.Add(sand);
        if (Math.Abs(sand) > 0.01) Broken.Add(FormattableString.Invariant($"{name}: sand off by {sand:0.0000}, low {made.Gauges.Low:0.0} high {made.Gauges.High:0.0} lag {made.Gauges.Lag:0.0} drops {made.Gauges.DropOuts}"));
        foreach (var metre in read.Metres.Where(metre => metre.ToLevelMetres - metre.FromLevelMetres > 0.99))
        {
            var real = truth.Between(metre.FromLevelMetres, metre.ToLevelMetres);
            if (real > 0.2) _diameterErrors.Add((metre.DiameterMetres / Diameter(real, made.Design)) - 1);
        }

        Least(made, read, name);
        FoundHangUps(truth, read, name);
    }

    private void Least(MadeLog made, LogInterpretation read, string name)
    {
        if (read.Least is not { } least) return;
        var real = Diameter(made.Truth.LeastMetre(made.Design.DesignTop), made.Design);
        _leasts++;
        _leastErrors.Add((least.DiameterMetres / real) - 1);
        if (real >= least.LowMetres && real <= least.HighMetres) _covered++;
        else Broken.Add(FormattableString.Invariant($"{name}: least {least.DiameterMetres:0.000} [{least.LowMetres:0.000} {least.HighMetres:0.000}] truth {real:0.000}"));
    }

    private void FoundHangUps(LogTruth truth, LogInterpretation read, string name)
    {
        var found = read.Events.Where(one => one.Kind == LogEventKind.HangUp).ToList();
        var doubted = read.Events.Where(one => one.Kind == LogEventKind.HangUpNotExcluded).ToList();
        var inVain = doubted.Count > 0 && !truth.HangUps.Any(real => doubted.Exists(one => IsAt(one, real)));
        foreach (var real in truth.HangUps.Where(hang => hang.Length > 0.5))
        {
            HangUps++;
            if (found.Find(one => IsAt(one, real)) is { } match)
            {
                _hangUpsFound++;
                found.Remove(match);
            }
            else if (doubted.Exists(one => IsAt(one, real))) _undecided++;
            else Broken.Add(FormattableString.Invariant($"{name}: hang-up of {real.Length:0.00} m at {real.FromLevel:0.00} missed"));
        }

        foreach (var real in truth.HangUps.Where(hang => hang.Length <= 0.5)) found.RemoveAll(one => IsAt(one, real));
        if (inVain) _doubtedInVain++;
        if (found.Count == 0) return;
        _falseHangUps++;
        Broken.Add(FormattableString.Invariant($"{name}: false hang-up of {found[0].SizeMetres:0.00} m from {found[0].FromLevelMetres:0.00} at {found[0].FromSeconds:0} s"));
    }

    private static bool IsAt(LogEvent told, TrueHangUp real) => told.ToLevelMetres > real.FromLevel - 0.5 && told.FromLevelMetres < real.FromLevel + real.Length + 0.5;

    private static bool CyclesAgree(LogTruth truth, LogInterpretation read) =>
        read.Cycles.Count == truth.CycleSand.Count
        && read.Cycles.Select((cycle, index) => Math.Abs(cycle.EndLevelMetres - truth.Bottoms[index + 1]) < 0.25).All(near => near);

    private static double Diameter(double sand, LogDesign design) => Math.Sqrt(4 * Math.Max(0, sand) * design.VolumeFactor / Math.PI);
}
