namespace SiteProgress.Core.Logs;

/// <summary>A metre of the final pile against its design.</summary>
/// <param name="FromLevelMetres">Lower end, metres.</param>
/// <param name="ToLevelMetres">Upper end, metres.</param>
/// <param name="SandRatio">Sand in the pile divided by the sand of the design diameter.</param>
public sealed record MetreAgainstDesign(double FromLevelMetres, double ToLevelMetres, double SandRatio);

/// <summary>A place where the sand stood too low above the tip while the casing rose, and over which no later pass went.</summary>
/// <param name="FromLevelMetres">Tip level where it began, metres.</param>
/// <param name="ToLevelMetres">Tip level where it ended, metres.</param>
/// <param name="Seconds">How long it lasted.</param>
public sealed record LowCover(double FromLevelMetres, double ToLevelMetres, double Seconds);

/// <summary>Charges that the sand gauge could see whole, loose cubic metres.</summary>
/// <param name="RecordedCubicMetres">As recorded.</param>
/// <param name="SeenCubicMetres">As the gauge saw them rise.</param>
public sealed record ComparedCharges(double RecordedCubicMetres, double SeenCubicMetres);

/// <summary>A stretch in which the sand gauge saw nothing, and for which charges and strokes do not exclude a hang-up that no later pass closed.</summary>
/// <param name="FromLevelMetres">Lowest tip level of it, metres.</param>
/// <param name="ToLevelMetres">Highest tip level of it, metres.</param>
/// <param name="UpToMetres">Longest hang-up that is not excluded, metres.</param>
public sealed record NotExcludedHangUp(double FromLevelMetres, double ToLevelMetres, double UpToMetres);

/// <summary>The figures of a log by which its pile is judged; what <see cref="LogInterpretation"/> tells, in short.</summary>
/// <param name="Why">Why nothing can be told; null when the log was read.</param>
/// <param name="Samples">Number of samples.</param>
/// <param name="BaseLevelMetres">Deepest level of the tip, metres.</param>
/// <param name="TopLevelMetres">Level from which the casing was pulled out, metres.</param>
/// <param name="BaseSeconds">End of penetration, seconds after the first sample.</param>
/// <param name="TopSeconds">Begin of the pull-out, seconds after the first sample.</param>
/// <param name="PenetrationMinutes">Time from touch-down to the base.</param>
/// <param name="BuildingMinutes">Time from the base to the begin of the pull-out.</param>
/// <param name="InclinationDegrees">Largest inclination between base and top; null where it was not logged.</param>
/// <param name="SandLeftCubicMetres">Sand left from the base on, loose; null without a sand gauge.</param>
/// <param name="ChargedCubicMetres">Charges recorded, loose; null without that channel.</param>
/// <param name="Least">Least equivalent diameter; null where it cannot be told.</param>
/// <param name="Thinnest">The metre with least sand for its design; null where it cannot be told.</param>
/// <param name="OpenHangUpMetres">Longest hang-up below the cut-off that no later pass closed, metres.</param>
/// <param name="OpenHangUpLevelMetres">Tip level where it began; null where there is none.</param>
/// <param name="LowestCover">Longest place with too little sand above the tip; null where there is none.</param>
/// <param name="GapSeconds">Longest break in the record between base and pull-out; 0 where there is none.</param>
/// <param name="StuckMetres">Longest rise during which the sand gauge did not change, metres; 0 where it did.</param>
/// <param name="Events">Kinds of event, each once.</param>
/// <param name="Compared">Charges against what the gauge saw of them; null where there is none to compare.</param>
/// <param name="NotExcluded">The longest hang-up below the cut-off that is not excluded; null where none is.</param>
public sealed record LogFigures(
    string? Why,
    int Samples,
    double? BaseLevelMetres,
    double? TopLevelMetres,
    double? BaseSeconds,
    double? TopSeconds,
    double? PenetrationMinutes,
    double? BuildingMinutes,
    double? InclinationDegrees,
    double? SandLeftCubicMetres,
    double? ChargedCubicMetres,
    LeastDiameter? Least,
    MetreAgainstDesign? Thinnest,
    double OpenHangUpMetres,
    double? OpenHangUpLevelMetres,
    LowCover? LowestCover,
    double GapSeconds,
    double StuckMetres,
    IReadOnlyList<LogEventKind> Events,
    ComparedCharges? Compared = null,
    NotExcludedHangUp? NotExcluded = null)
{
    /// <summary>A metre shorter than this at the top of the pile is not held against the design by itself, metres.</summary>
    private const double ShortestMetre = 0.5;

    /// <summary>A log of which nothing can be told.</summary>
    public static LogFigures Refused(string why) => new(
        why, 0, null, null, null, null, null, null, null, null, null, null, null, 0, null, null, 0, 0, []);

    /// <summary>The figures of an interpretation.</summary>
    /// <param name="read">The interpretation.</param>
    /// <param name="context">What the log was read against.</param>
    public static LogFigures Of(LogInterpretation read, LogContext context)
    {
        ArgumentNullException.ThrowIfNull(read);
        ArgumentNullException.ThrowIfNull(context);
        if (read.Refusal is { } why) return Refused(why) with { Samples = read.Samples };
        double? from = read.Phases.LastOrDefault(phase => phase.Kind == LogPhaseKind.Penetration)?.ToSeconds;
        double? to = read.Phases.LastOrDefault(phase => phase.Kind == LogPhaseKind.PullOut)?.FromSeconds;
        LogEvent? hangUp = read.Events.Where(one => one is { Kind: LogEventKind.HangUp, Open: true } && !(one.FromLevelMetres > context.CutOffLevelMetres)).MaxBy(one => one.SizeMetres);
        LogEvent? cover = read.Events.Where(one => one is { Kind: LogEventKind.SandCoverLow, Open: true } && !(one.FromLevelMetres > context.CutOffLevelMetres)).MaxBy(one => one.ToSeconds - one.FromSeconds);
        LogEvent? doubt = read.Events.Where(one => one is { Kind: LogEventKind.HangUpNotExcluded, Open: true } && !(one.FromLevelMetres > context.CutOffLevelMetres)).MaxBy(one => one.SizeMetres);
        return new LogFigures(
            null, read.Samples, read.BaseLevelMetres, read.TopLevelMetres, from, to, read.PenetrationMinutes, read.BuildingMinutes, read.LargestInclinationDegrees,
            read.SandLeftCubicMetres, read.ChargedCubicMetres, read.Least, ThinnestOf(read.Metres, context.DesignDiameterMetres),
            hangUp?.SizeMetres ?? 0, hangUp?.FromLevelMetres,
            cover is null ? null : new LowCover(cover.FromLevelMetres, cover.ToLevelMetres, cover.ToSeconds - cover.FromSeconds),
            read.Events.Where(one => one.Kind == LogEventKind.RecordGap && !(one.ToSeconds < from) && !(one.FromSeconds > to)).Select(one => one.ToSeconds - one.FromSeconds).DefaultIfEmpty().Max(),
            read.Events.Where(one => one.Kind == LogEventKind.SensorStuck && !(one.ToSeconds < from) && !(one.FromSeconds > to)).Select(one => one.SizeMetres ?? 0).DefaultIfEmpty().Max(),
            [.. read.Events.Select(one => one.Kind).Distinct().Order()],
            read is { ChargesComparedCubicMetres: { } recorded, ChargesByGaugeCubicMetres: { } seen } ? new ComparedCharges(recorded, seen) : null,
            doubt is null ? null : new NotExcludedHangUp(doubt.FromLevelMetres, doubt.ToLevelMetres, doubt.SizeMetres!.Value));
    }

    private static MetreAgainstDesign? ThinnestOf(IReadOnlyList<MetreOfPile> metres, double? designDiameter)
    {
        if (designDiameter is not > 0) return null;
        return metres
            .Where(metre => metre.ToLevelMetres - metre.FromLevelMetres >= ShortestMetre)
            .Select(metre => new MetreAgainstDesign(metre.FromLevelMetres, metre.ToLevelMetres, metre.DiameterMetres * metre.DiameterMetres / (designDiameter.Value * designDiameter.Value)))
            .MinBy(metre => metre.SandRatio);
    }
}
