namespace SiteProgress.Core.Logs;

/// <summary>The cycles of a building, with what each left.</summary>
internal static class CycleList
{
    public static List<LogCycle> Of(CleanLog log, SandBalance balance, Building building, LogContext context)
    {
        List<LogCycle> cycles = [];
        for (int place = 0; place + 1 < building.Bottoms.Count; place++)
        {
            TurningPoint bottom = building.Turns[building.Bottoms[place]], top = building.TopAfter(place)!.Value, end = building.Turns[building.Bottoms[place + 1]];
            double? left = log.HasSand ? (building.Left[place + 1] - building.Left[place]) * context.CasingArea : null;
            double rise = end.LevelMetres - bottom.LevelMetres;
            cycles.Add(new LogCycle(
                log.Seconds[bottom.To],
                log.Seconds[end.From],
                bottom.LevelMetres,
                top.LevelMetres,
                end.LevelMetres,
                building.Charged[place + 1],
                left,
                log.HasSand ? Math.Max(0, balance.At(top).Metres - building.Left[place + 1]) * context.CasingArea : null,
                rise >= context.Constants.SmallestRiseMetres && left > 0 && context.VolumeChangeFactor is { } factor
                    ? Math.Sqrt(4 * left.Value * factor / (Math.PI * rise))
                    : null));
        }

        return cycles;
    }
}
