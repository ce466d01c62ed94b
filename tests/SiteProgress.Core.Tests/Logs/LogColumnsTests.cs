using NodaTime;
using Shouldly;
using SiteProgress.Core.Logs;
using Xunit;

namespace SiteProgress.Core.Tests.Logs;

/// <summary>The samples as people see them: tip as a level, sand as a height above the tip, nothing smoothed.</summary>
public sealed class LogColumnsTests
{
    private static readonly double[] Tip = [.. Enumerable.Range(0, 40).Select(index => -12 - (0.1 * index))];

    [Fact]
    public void A_level_and_a_height_are_given_as_logged_with_spikes_and_drop_outs()
    {
        double[] sand = [.. Enumerable.Range(0, 40).Select(index => index == 7 ? 19.5 : index == 9 ? double.NaN : 5.0)];

        LogColumns columns = LogColumns.Of(Log(sand, SandMeasure.HeightAboveTip), Context());

        columns.TipLevels.ToArray().ShouldBe(Tip);
        columns.SandHeights.Span[7].ShouldBe(19.5);
        double.IsNaN(columns.SandHeights.Span[9]).ShouldBeTrue();
    }

    [Fact]
    public void A_distance_from_the_top_is_taken_from_the_length_of_the_casing_and_told_by_none_without_it()
    {
        double[] sand = [.. Enumerable.Repeat(30.0, 40)];

        LogColumns.Of(Log(sand, SandMeasure.DistanceFromTop), Context() with { CasingLengthMetres = 42 }).SandHeights.Span[3].ShouldBe(12);
        LogColumns.Of(Log(sand, SandMeasure.DistanceFromTop), Context()).SandHeights.Length.ShouldBe(0);
    }

    [Fact]
    public void A_level_of_the_sand_is_taken_above_the_tip_and_a_depth_below_water_is_made_a_level()
    {
        double[] level = [.. Enumerable.Repeat(-2.0, 40)], water = [.. Enumerable.Repeat(0.4, 40)];
        double[] depth = [.. Tip.Select(tip => 0.4 - tip)];

        LogColumns columns = LogColumns.Of(Log(level, SandMeasure.Level, depth, water), Context());

        columns.TipLevels.Span[39].ShouldBe(Tip[39], 1e-9);
        columns.SandHeights.Span[39].ShouldBe(-2 - Tip[39], 1e-9);
        double.IsNaN(LogColumns.Of(Log(level, SandMeasure.Level, depth), Context()).TipLevels.Span[0]).ShouldBeTrue();
    }

    [Fact]
    public void A_clock_that_goes_back_is_mended_and_the_samples_keep_their_order()
    {
        double[] seconds = [.. Enumerable.Range(0, 40).Select(index => (double)(index < 20 ? index : index - 8))];

        double[] mended = LogColumns.Of(Log([.. Enumerable.Repeat(5.0, 40)], SandMeasure.HeightAboveTip, seconds: seconds), Context()).Seconds.ToArray();

        mended.ShouldBe(mended.Order());
        mended[39].ShouldBe(39, 1e-9);
    }

    private static LogContext Context() => new(1.2, null, 0.8, 2, null, null, null, LogConstants.Standard);

    private static PileLog Log(double[] sand, SandMeasure measure, double[]? depth = null, double[]? water = null, double[]? seconds = null)
    {
        Dictionary<LogChannel, ReadOnlyMemory<double>> columns = new() { [LogChannel.Tip] = depth ?? Tip, [LogChannel.Sand] = sand };
        if (water is not null) columns[LogChannel.WaterLevel] = water;
        return new PileLog(
            Instant.FromUtc(2026, 4, 1, 6, 0), depth is null ? TipMeasure.Level : TipMeasure.DepthBelowWater, measure,
            seconds ?? [.. Enumerable.Range(0, 40).Select(index => (double)index)], columns);
    }
}
