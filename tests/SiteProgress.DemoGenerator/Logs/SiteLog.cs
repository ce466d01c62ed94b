using SiteProgress.DemoGenerator.Records;
using SiteProgress.DemoGenerator.Site;
using SiteProgress.DemoGenerator.Work;

namespace SiteProgress.DemoGenerator.Logs;

/// <summary>
/// The log of one recorded pile. It tells the pile as it truly was: casing, times, tip, top, sand; where a fault is planted into a
/// log or into a record, one of them shows it and the other does not.
/// </summary>
public sealed class SiteLog
{
    /// <summary>Working days of which every pile has a log: the last ones.</summary>
    public const int WholeDays = 2;

    /// <summary>Planted faults of records whose piles all have a log.</summary>
    private static readonly string[] FaultsOfOnePile = ["tip-short", "sand-short", "swapped-number"];

    /// <summary>Piles with a log of each other planted fault of records, at most.</summary>
    private const int MostOfFault = 2;

    /// <summary>The sand of a log differs from that of the record by less than this share.</summary>
    private const double SandAgrees = 0.006;

    private SiteLog(Installation of, LogFault? fault, DateTime first, MadeLog made) => (Of, Fault, FirstSample, Made) = (of, fault, first, made);

    public Installation Of { get; }

    /// <summary>The fault planted; null where there is none.</summary>
    public LogFault? Fault { get; }

    /// <summary>UTC of the first sample.</summary>
    public DateTime FirstSample { get; }

    public MadeLog Made { get; }

    /// <summary>From when to when the logger or a gauge failed, seconds after the first sample; null where none did.</summary>
    public (double From, double To)? Failed { get; private set; }

    /// <summary>
    /// Logs of every pile of the last working days, of all barges; of piles with a planted fault in their record; and on Tern's last
    /// day one for each fault of logs and gauges.
    /// </summary>
    public static IReadOnlyList<SiteLog> Make(int seed, IReadOnlyList<Installation> installations)
    {
        var faults = Faults(installations);
        var days = installations.Select(each => each.WorkingDay).Distinct().Order().TakeLast(WholeDays).ToHashSet();
        var single = installations.Where(each => each.Faults.Exists(FaultsOfOnePile.Contains));
        var some = installations.SelectMany(each => each.Faults.Except(FaultsOfOnePile).Select(fault => (fault, each)))
            .GroupBy(one => one.fault).SelectMany(group => group.Select(one => one.each).Take(MostOfFault));
        return [.. installations.Where(each => days.Contains(each.WorkingDay)).Concat(single).Concat(some)
            .Where(each => each.Truth.Top is not null).Distinct()
            .OrderBy(each => each.Start).ThenBy(each => each.Barge.Code, StringComparer.Ordinal).ThenBy(each => each.Casing)
            .Select(each => Make(seed, each, faults.GetValueOrDefault(each)))];
    }

    /// <summary>Every second clean pile of Tern's last day carries a fault until all are planted, so that each has an ordinary neighbour.</summary>
    private static Dictionary<Installation, LogFault> Faults(IReadOnlyList<Installation> installations) => installations
        .Where(each => each is { Barge.Name: "Tern", Outcome: "complete", Attempt: 1, Planned.Zone.Code: "A", Faults.Count: 0 })
        .GroupBy(each => each.WorkingDay)
        .Where(day => day.Count() >= 2 * LogFault.All.Count)
        .MaxBy(day => day.Key)!
        .OrderBy(each => each.Start).ThenBy(each => each.Casing)
        .Where((_, index) => index % 2 == 1)
        .Zip(LogFault.All).ToDictionary(pair => pair.First, pair => pair.Second);

    /// <summary>What stands of the pile is judged up to here.</summary>
    public double CutOff => Of.Outcome == "interrupted" ? Made.Design.Top : Made.Design.DesignTop;

    /// <summary>Each barge has its own gauges: Plover's sand gauge gives a level, follows late and reads nothing near the tip; Curlew's tip is a depth below water.</summary>
    private static LogGauges GaugesOf(Barge barge) => barge.Name switch
    {
        "Plover" => new LogGauges { Spacing = 2, TipNoise = 0.015, SandNoise = 0.03, ChargeNoise = 0.007, SandMeasure = 3, Lag = 6, Low = 0.8 },
        "Curlew" => new LogGauges { Spacing = 2.5, TipNoise = 0.012, SandNoise = 0.04, ChargeNoise = 0.007, TipMeasure = 2, TipQuantum = 0.02, SandQuantum = 0.05, DropOuts = 2, LongestDropOut = 12 },
        _ => new LogGauges { Spacing = 2, TipNoise = 0.01, SandNoise = 0.04, ChargeNoise = 0.005 },
    };

    private static SiteLog Make(int seed, Installation of, LogFault? fault)
    {
        var (design, stream) = Agreeing(seed, of, fault);
        var course = new LogCourse(design, ChanceSource.For(seed, stream));
        var first = of.EndOfPenetration.AddSeconds(-Math.Round(course.EndOfPenetration));
        var hours = course.EndOfBuilding / 3600;
        design = design with { Water = Sea.WaterLevel(first), WaterRise = (Sea.WaterLevel(first.AddHours(hours)) - Sea.WaterLevel(first)) / hours };
        var log = new SiteLog(of, fault, first, MadeLog.Make(design, GaugesOf(of.Barge), ChanceSource.For(seed, stream)));
        log.Failed = fault?.Fail(log.Made);
        return log;
    }

    /// <summary>A design and a stream of chance whose pile holds the sand that the pile truly got.</summary>
    private static (LogDesign Design, string Stream) Agreeing(int seed, Installation of, LogFault? fault)
    {
        var design = DesignOf(of, fault);
        var (best, least) = ((design, ""), double.PositiveInfinity);
        for (var attempt = 1; attempt <= 80 && least >= SandAgrees; attempt++)
        {
            var stream = FormattableString.Invariant($"log {of.Record} {attempt}");
            var truth = new LogCourse(design, ChanceSource.For(seed, stream)).Truth;
            var off = (truth.Sand / of.Truth.Sand) - 1;
            if (Math.Abs(off) < least && fault?.Shows(truth) != false) (best, least) = ((design, stream), Math.Abs(off));
            // A hang-up or a second pass takes its sand from elsewhere: the aim moves until the whole comes out right.
            design = design with { Sand = design.Sand * (1 - (0.5 * off)) };
        }

        return double.IsFinite(least) ? best : throw new InvalidOperationException("No log of " + of.Record + " came out with the fault " + fault?.Code + ".");
    }

    private static LogDesign DesignOf(Installation of, LogFault? fault)
    {
        var design = new LogDesign
        {
            CasingInner = of.Barge.Inner,
            VolumeFactor = SandSourceDesign.FactorOf(of.Zone.SandSource),
            Diameter = of.Zone.Diameter,
            DesignTop = of.Zone.TopLevel,
            Tip = of.Truth.Tip,
            Top = of.Truth.Top!.Value,
            Seabed = of.Zone.Seabed,
            Sand = of.Truth.Sand,
            PenetrationMinutes = (of.EndOfPenetration - of.Start).TotalMinutes,
            BuildingMinutes = (of.End - of.EndOfPenetration).TotalMinutes,
            Inclination = of.Inclination ?? 0.3,
        };
        return fault is null ? design : fault.Change(design);
    }
}
