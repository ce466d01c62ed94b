namespace SiteProgress.DemoGenerator.Logs;

/// <summary>A fault to plant into one log.</summary>
/// <param name="Code">Its name in the truth.</param>
/// <param name="What">What it is.</param>
/// <param name="Change">How it changes the pile that is built.</param>
/// <param name="Fail">Makes the logger or a gauge fail in the samples; tells from when to when, or null where nothing fails.</param>
public sealed record LogFault(string Code, string What, Func<LogDesign, LogDesign> Change, Func<MadeLog, (double From, double To)?> Fail)
{
    public const double GapSeconds = 90;

    /// <summary>Whether the pile came out with the fault as named; by chance a hang-up can lie where the next re-drive closes it.</summary>
    public Func<LogTruth, bool> Shows { get; init; } = _ => true;

    public static IReadOnlyList<LogFault> All { get; } =
    [
        OfPile("hang-up", "The sand hung in the casing over 1.2 m; nothing was done about it.", design => design with { HangUps = [new PlannedHangUp(0.45, 1.2)] }) with { Shows = truth => truth.HangUps is [{ Closed: false }] },
        OfPile("hang-up-repaired", "The sand hung over 1.0 m; the casing was driven below the place and the pile built anew from there.",
            design => design with { HangUps = [new PlannedHangUp(0.55, 1.0)], Repairs = true }) with { Shows = truth => truth.HangUps is [{ Closed: true }] },
        OfPile("thin-place", "Three tenths of the sand are missing over one and a half metres around the level -20 m.", design => design with { Thin = (-20, 0.3) }),
        OfPile("valve-closed", "The valve was shut for the first minute of building.", design => design with { ValveStaysClosed = true }),
        OfPile("air-lost", "The air pressure stayed below the water pressure outside.", design => design with { AirFails = true }),
        OfPile("soil-in-casing", "Soil came into the casing during penetration.", design => design with { SoilEnters = true }),
        new("record-gap", "The logger wrote nothing for a minute and a half.", design => design, LeaveOut),
        new("sensor-stuck", "The sand gauge read one same value over a withdrawal.", design => design, Freeze),
    ];

    private static LogFault OfPile(string code, string what, Func<LogDesign, LogDesign> change) => new(code, what, change, _ => null);

    private static (double From, double To)? LeaveOut(MadeLog log)
    {
        var from = log.Course.EndOfPenetration + (0.4 * (log.Course.EndOfBuilding - log.Course.EndOfPenetration));
        var first = log.Seconds.FindIndex(seconds => seconds > from);
        var last = log.Seconds.FindIndex(seconds => seconds >= from + GapSeconds);
        List<double>[] columns = [log.Tip, log.Sand, log.Air, log.Hammer, log.InclinationX, log.InclinationY, log.Charge, log.Valve, log.Water];
        // What was charged meanwhile is known to the weigher and comes with the next sample.
        log.Charge[last] += log.Charge.Skip(first).Take(last - first).Sum();
        foreach (var column in columns) column.RemoveRange(first, last - first);
        var gap = (log.Seconds[first - 1], log.Seconds[last]);
        log.Seconds.RemoveRange(first, last - first);
        return gap;
    }

    /// <summary>Freezes the sand gauge over the longest withdrawal in which sand left.</summary>
    private static (double From, double To)? Freeze(MadeLog log)
    {
        var knots = log.Course.Knots;
        var longest = Enumerable.Range(1, knots.Count - 1)
            .Where(knot => knots[knot - 1].Time > log.Course.EndOfPenetration && knots[knot].Height < knots[knot - 1].Height - 0.5)
            .MaxBy(knot => knots[knot].Tip - knots[knot - 1].Tip);
        var (from, to) = (knots[longest - 1].Time, knots[longest].Time);
        var first = log.Seconds.FindIndex(seconds => seconds >= from);
        for (var index = first; log.Seconds[index] < to; index++) log.Sand[index] = log.Sand[first];
        return (from, to);
    }
}
