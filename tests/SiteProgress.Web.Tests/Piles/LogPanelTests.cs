using Bunit;
using NodaTime;
using Shouldly;
using SiteProgress.Core.Logs;
using SiteProgress.Jobs.Attachments;
using SiteProgress.Web.Piles;
using Xunit;

namespace SiteProgress.Web.Tests.Piles;

/// <summary>Chart and tables of a log as they are drawn.</summary>
public sealed class LogPanelTests : BunitContext
{
    private static readonly double[] Seconds = [.. Enumerable.Range(0, 400).Select(index => (double)index)];

    [Fact]
    public void Only_what_was_logged_has_a_panel_and_a_drop_out_stays_a_gap()
    {
        LogChartData chart = LogChartData.Of(View(SandMeasure.HeightAboveTip, null));

        chart.Panels.Select(panel => panel.Title).ShouldBe(["casing tip [m above SLD]", "phases", "sand above the tip [m]", "charges, loose [m³]"]);
        chart.Panels[2].Series[0].Values[50].ShouldBeNull();
        chart.Panels[3].Sticks!.Count.ShouldBe(1);
        chart.Moments.Count.ShouldBe(400);
    }

    [Fact]
    public void Sand_measured_from_the_top_of_a_casing_of_unknown_length_says_so()
        => LogChartData.Of(View(SandMeasure.DistanceFromTop, null)).Panels.ShouldContain(panel => panel.Title.EndsWith("the casing's length is not known", StringComparison.Ordinal));

    [Fact]
    public void An_event_is_told_with_its_number_and_asks_the_chart_for_its_time()
    {
        (double From, double To) asked = default;
        var tables = Render<LogTables>(parameters => parameters.Add(table => table.View, View(SandMeasure.HeightAboveTip, Hang)).Add(table => table.Chosen, span => asked = span));

        var row = tables.FindAll("tbody tr").First(one => one.TextContent.Contains("hang-up", StringComparison.Ordinal));
        row.TextContent.ShouldContain("Open: no later pass went below it.");
        row.QuerySelector("button")!.Click();
        asked.ShouldBe((120, 150));
    }

    [Fact]
    public void A_log_without_events_says_so()
        => Render<LogTables>(parameters => parameters.Add(table => table.View, View(SandMeasure.HeightAboveTip, null))).Markup.ShouldContain("The log shows no event.");

    private static LogEvent Hang { get; } = new(LogEventKind.HangUp, 120, 150, -21, -20, 0.9, true, "The casing rose.");

    private static PileLogView View(SandMeasure measure, LogEvent? hang)
    {
        double[] tip = [.. Seconds.Select(second => -12 - (second < 200 ? 0.05 * second : 20 - (0.05 * second)))];
        double[] sand = [.. Seconds.Select(second => second == 50 ? double.NaN : 9.0)];
        double[] charges = [.. Seconds.Select(second => second == 20 ? 6.5 : 0)];
        PileLog log = new(
            Instant.FromUtc(2026, 3, 10, 6, 0), TipMeasure.Level, measure, Seconds,
            new Dictionary<LogChannel, ReadOnlyMemory<double>> { [LogChannel.Tip] = tip, [LogChannel.Sand] = sand, [LogChannel.Charge] = charges });
        LogContext context = new(1.2, null, 0.8, 2, -12.4, -21, null, LogConstants.Standard);
        LogInterpretation read = LogInterpreter.Read(log, context);
        return new PileLogView("A-0001", 77, true, "log.csv", log, read with { Events = hang is null ? [] : [hang] }, context, "Europe/Copenhagen", "SLD", null, []);
    }
}
