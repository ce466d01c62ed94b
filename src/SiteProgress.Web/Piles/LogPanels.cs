using SiteProgress.Core.Logs;
using SiteProgress.Jobs.Attachments;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Piles;

/// <summary>The panels of a log's chart: those channels that were logged, in the order in which people ask for them.</summary>
internal sealed class LogPanels
{
    private readonly PileLogView view;
    private readonly LogColumns columns;
    private readonly double[] moments;
    private readonly double first;

    private LogPanels(PileLogView view, LogColumns columns, double[] moments, double first)
        => (this.view, this.columns, this.moments, this.first) = (view, columns, moments, first);

    /// <summary>The panels of a log, uppermost first.</summary>
    public static IReadOnlyList<LogChartData.Panel> Of(PileLogView view, LogColumns columns, double[] moments, double first, string levelDatum)
    {
        LogPanels panels = new(view, columns, moments, first);
        return
        [
            .. new[]
            {
                panels.Tip(levelDatum), panels.Phases(), panels.Sand(), panels.Charges(), panels.Air(), panels.Hammer(), panels.Inclination(),
                panels.Valve(), panels.Water(levelDatum),
            }.OfType<LogChartData.Panel>(),
        ];
    }

    private LogChartData.Panel Tip(string datum)
    {
        (double low, double high) = LevelSpan.Of(view, columns);
        return new LogChartData.Panel
        {
            Title = $"casing tip [m above {datum}]",
            Unit = "m",
            Decimals = 2,
            Height = LogChartData.LevelPanelHeight,
            Low = low,
            High = high,
            Series = [Line("casing tip", columns.TipLevels.Span, 3)],
            Lines = [.. Design(view.Context.CutOffLevelMetres, "design top").Concat(Design(view.Context.DesignTipLevelMetres, "design tip"))],
            Marked = true,
        };
    }

    private static IEnumerable<LogChartData.Line> Design(double? level, string name) => level is { } at ? [new(at, $"{name} {Show.Level(at)} m")] : [];

    private LogChartData.Panel? Phases()
    {
        LogPhaseKind[] kinds = [LogPhaseKind.Penetration, LogPhaseKind.Charging, LogPhaseKind.Withdrawal, LogPhaseKind.Redrive, LogPhaseKind.PullOut];
        return view.Reading.Phases.Count == 0 ? null : new LogChartData.Panel
        {
            Title = "phases",
            Height = 76,
            Lanes = [.. kinds.Select(kind => new LogChartData.Lane(
                LogWords.Of(kind),
                [.. view.Reading.Phases.Where(phase => phase.Kind == kind).Select(phase => new[] { first + phase.FromSeconds, first + phase.ToSeconds })]))],
        };
    }

    private LogChartData.Panel? Sand() => columns.SandHeights.Length > 0
        ? new LogChartData.Panel
        {
            Title = "sand above the tip [m]",
            Unit = "m",
            Decimals = 2,
            Height = 130,
            Low = 0,
            Series = [Line("sand above the tip", columns.SandHeights.Span, 3)],
            Lines = [new(view.Context.Constants.LeastCoverMetres, "least cover")],
        }
        : view.Log.Has(LogChannel.Sand)
            ? new LogChartData.Panel
            {
                Title = "sand, distance from casing top [m]; the casing's length is not known",
                Unit = "m",
                Decimals = 2,
                Height = 130,
                Series = [Line("sand, from casing top", view.Log.Of(LogChannel.Sand), 3)],
            }
            : null;

    private LogChartData.Panel? Charges()
    {
        if (!view.Log.Has(LogChannel.Charge)) return null;
        double[] charges = view.Log.Of(LogChannel.Charge).ToArray();
        double[][] sticks = [.. charges.Select((size, index) => new[] { moments[index], size }).Where(stick => stick[1] > 0)];
        return new LogChartData.Panel
        {
            Title = "charges, loose [m³]",
            Unit = "m³",
            Decimals = 1,
            Height = 64,
            Low = 0,
            High = sticks.Length == 0 ? 1 : sticks.Max(stick => stick[1]) * 1.6,
            Series = [],
            Sticks = sticks,
        };
    }

    /// <summary>Air in the casing against the water outside at the tip, which it has to keep out.</summary>
    private LogChartData.Panel? Air()
    {
        if (!view.Log.Has(LogChannel.AirPressure)) return null;
        LogChartData.Series air = Line("air pressure", view.Log.Of(LogChannel.AirPressure), 1);
        bool outside = view.Log.Has(LogChannel.WaterLevel);
        return new LogChartData.Panel
        {
            Title = outside ? "air pressure [kPa]; dashed: outside water at the tip" : "air pressure [kPa]",
            Unit = "kPa",
            Height = 96,
            Low = 0,
            Series = outside ? [air, Line("outside at the tip", Outside(), 1)] : [air],
        };
    }

    private double[] Outside()
    {
        ReadOnlySpan<double> water = view.Log.Of(LogChannel.WaterLevel), tip = columns.TipLevels.Span;
        double[] outside = new double[water.Length];
        for (int index = 0; index < outside.Length; index++) outside[index] = Math.Max(0, (water[index] - tip[index]) * view.Context.Constants.WaterWeightFactor);
        return outside;
    }

    private LogChartData.Panel? Hammer() => view.Log.Has(LogChannel.HammerLoad)
        ? new LogChartData.Panel { Title = "hammer load [unit of the barge]", Height = 80, Low = 0, Series = [Line("hammer load", view.Log.Of(LogChannel.HammerLoad), 1)] }
        : null;

    private LogChartData.Panel? Inclination()
    {
        LogChartData.Series[] both = [.. new[] { (LogChannel.InclinationX, "inclination, first axis"), (LogChannel.InclinationY, "inclination, second axis") }
            .Where(one => view.Log.Has(one.Item1)).Select(one => Line(one.Item2, view.Log.Of(one.Item1), 3))];
        return both.Length == 0 ? null : new LogChartData.Panel
        {
            Title = both.Length == 2 ? "inclination, first axis of the barge [°]; dashed: second" : "inclination [°]",
            Unit = "°",
            Decimals = 2,
            Height = 80,
            Series = both,
        };
    }

    private LogChartData.Panel? Valve() => view.Log.Has(LogChannel.Valve)
        ? new LogChartData.Panel
        {
            Title = "valve at the tip",
            Height = 48,
            Low = -0.4,
            High = 1.9,
            Words = new Dictionary<int, string> { [0] = "closed", [1] = "open" },
            Stepped = true,
            Series = [Line("valve", view.Log.Of(LogChannel.Valve), 0)],
        }
        : null;

    private LogChartData.Panel? Water(string datum) => view.Log.Has(LogChannel.WaterLevel)
        ? new LogChartData.Panel
        {
            Title = $"water level [m above {datum}]",
            Unit = "m",
            Decimals = 2,
            Height = 90,
            Series = [Line("water level", view.Log.Of(LogChannel.WaterLevel), 3)],
        }
        : null;

    private static LogChartData.Series Line(string name, ReadOnlySpan<double> values, int decimals)
    {
        double?[] kept = new double?[values.Length];
        for (int index = 0; index < values.Length; index++) kept[index] = double.IsFinite(values[index]) ? Math.Round(values[index], decimals) : null;
        return new LogChartData.Series(name, kept);
    }
}

/// <summary>The span of levels that chart and drawing of one pile share, so that a level lies at one height in both.</summary>
internal static class LevelSpan
{
    private const double Room = 1;

    /// <summary>Lowest and highest level shown, metres.</summary>
    public static (double Low, double High) Of(PileLogView view, LogColumns columns)
    {
        double[] tip = [.. columns.TipLevels.ToArray().Where(double.IsFinite)];
        double[] design = [.. new[] { view.Context.CutOffLevelMetres, view.Context.DesignTipLevelMetres, view.Reading.BaseLevelMetres }.OfType<double>()];
        // A spike of the gauge must not press the pile flat: what one sample in two hundred exceeds is left out.
        Array.Sort(tip);
        double[] all = tip.Length == 0 ? design : [.. design, tip[tip.Length / 200], tip[^(1 + (tip.Length / 200))]];
        return all.Length == 0 ? (-1, 1) : (Math.Floor((all.Min() - Room) * 2) / 2, Math.Ceiling((all.Max() + Room) * 2) / 2);
    }
}
