namespace SiteProgress.Core.Logs;

/// <summary>
/// The samples of a log as they are shown to a person: on a clock that always rises, tip and sand in the same terms whatever the
/// barge measures, and nothing smoothed: spikes and drop-outs stay, because the person is to see them.
/// </summary>
/// <param name="Seconds">Time of each sample after the first, seconds; jumps of the logger's clock are taken out as <see cref="LogInterpreter"/> does.</param>
/// <param name="TipLevels">Level of the casing tip, metres above the site's level datum; NaN where it was not read.</param>
/// <param name="SandHeights">
/// Height of the sand above the tip, metres; NaN where it was not read. Empty where it was not logged, or was measured from the
/// casing top and the casing's length is not known.
/// </param>
public sealed record LogColumns(ReadOnlyMemory<double> Seconds, ReadOnlyMemory<double> TipLevels, ReadOnlyMemory<double> SandHeights)
{
    /// <summary>The columns of a log.</summary>
    /// <param name="log">The samples.</param>
    /// <param name="context">What the log is read against.</param>
    public static LogColumns Of(PileLog log, LogContext context)
    {
        ArgumentNullException.ThrowIfNull(log);
        ArgumentNullException.ThrowIfNull(context);
        using CleanLog clean = CleanLog.Of(log, context);
        double[] tip = Tip(log);
        return new LogColumns(clean.Seconds.AsSpan(0, clean.Count).ToArray(), tip, Sand(log, tip, context));
    }

    private static double[] Tip(PileLog log)
    {
        double[] tip = log.Of(LogChannel.Tip).ToArray();
        if (log.TipMeasure == TipMeasure.Level) return tip;
        ReadOnlySpan<double> water = log.Of(LogChannel.WaterLevel);
        for (int index = 0; index < tip.Length; index++) tip[index] = water.IsEmpty ? double.NaN : water[index] - tip[index];
        return tip;
    }

    private static double[] Sand(PileLog log, double[] tip, LogContext context)
    {
        double[] sand = log.Of(LogChannel.Sand).ToArray();
        if (log.SandMeasure == SandMeasure.DistanceFromTop && context.CasingLengthMetres is null) return [];
        for (int index = 0; index < sand.Length; index++)
        {
            sand[index] = log.SandMeasure switch
            {
                SandMeasure.Level => sand[index] - tip[index],
                SandMeasure.DistanceFromTop => context.CasingLengthMetres!.Value - sand[index],
                _ => sand[index] - context.GaugeZeroMetres,
            };
        }

        return sand;
    }
}
