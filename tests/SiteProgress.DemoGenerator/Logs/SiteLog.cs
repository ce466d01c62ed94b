using SiteProgress.DemoGenerator.Records;
using SiteProgress.DemoGenerator.Site;
using SiteProgress.DemoGenerator.Work;

namespace SiteProgress.DemoGenerator.Logs;

/// <summary>
/// The log of one recorded pile. It tells the same pile as the as-built record: casing, times, tip, top, sand; where a fault is
/// planted, the log shows it and the record does not.
/// </summary>
public sealed class SiteLog
{
    /// <summary>Piles with a log and no fault, at most.</summary>
    private const int MostOrdinary = 18;

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

    /// <summary>The logs of Tern's last working day that has piles enough: one for each fault and some without.</summary>
    public static IReadOnlyList<SiteLog> Make(int seed, IReadOnlyList<Installation> installations)
    {
        var piles = installations
            .Where(each => each is { Barge.Name: "Tern", Outcome: "complete", Attempt: 1, Planned.Zone.Code: "A", Faults.Count: 0 })
            .GroupBy(each => each.WorkingDay)
            .Where(day => day.Count() >= 2 * LogFault.All.Count)
            .MaxBy(day => day.Key)!
            .OrderBy(each => each.Start).ThenBy(each => each.Casing)
            .Take(LogFault.All.Count + MostOrdinary)
            .ToList();
        // Every second pile carries a fault until all are planted, so that each has an ordinary neighbour to compare with.
        return [.. piles.Select((pile, index) => Make(seed, pile, index % 2 == 1 && index / 2 < LogFault.All.Count ? LogFault.All[index / 2] : null))];
    }

    private static SiteLog Make(int seed, Installation of, LogFault? fault)
    {
        var (design, stream) = Agreeing(seed, of, fault);
        var course = new LogCourse(design, ChanceSource.For(seed, stream));
        var first = of.EndOfPenetration.AddSeconds(-Math.Round(course.EndOfPenetration));
        var hours = course.EndOfBuilding / 3600;
        design = design with { Water = Sea.WaterLevel(first), WaterRise = (Sea.WaterLevel(first.AddHours(hours)) - Sea.WaterLevel(first)) / hours };
        var gauges = new LogGauges { Spacing = 2, TipNoise = 0.01, SandNoise = 0.04, ChargeNoise = 0.005 };
        var log = new SiteLog(of, fault, first, MadeLog.Make(design, gauges, ChanceSource.For(seed, stream)));
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
