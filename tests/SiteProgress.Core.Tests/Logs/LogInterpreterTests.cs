using NodaTime;
using Shouldly;
using SiteProgress.Core.Logs;
using Xunit;

namespace SiteProgress.Core.Tests.Logs;

/// <summary>The mass balance of the method, on logs drawn by hand: withdrawal w = A_p / (A_c C) and re-drive r = w - 1 for each metre of pile.</summary>
public sealed class LogInterpreterTests
{
    // Withdrawal for one metre of pile by casing, pile and C: common practice of the method, worked out by hand from the areas.
    [Theory]
    [InlineData(0.4, 0.7, 1.0, 3.0625)]
    [InlineData(0.4, 0.7, 0.8, 3.8281)]
    [InlineData(1.0, 1.6, 0.8, 3.2000)]
    [InlineData(1.2, 2.0, 1.0, 2.7778)]
    [InlineData(1.2, 2.0, 0.8, 3.4722)]
    public void The_withdrawal_of_the_mass_balance_gives_the_design_diameter(double casing, double pile, double factor, double withdrawal)
    {
        var read = Read(Drawn(withdrawal, rises: 8), casing, factor);

        read.Cycles.Count.ShouldBe(8);
        read.Cycles.ShouldAllBe(cycle => Math.Abs(cycle.DiameterMetres!.Value - pile) < 0.03);
        read.Least!.DiameterMetres.ShouldBe(pile, 0.03);
        read.SandLeftCubicMetres!.Value.ShouldBe(Math.PI / 4 * casing * casing * 8 * withdrawal, 0.005 * Math.PI / 4 * casing * casing * 8 * withdrawal);
        read.Events.ShouldBeEmpty();
    }

    [Fact]
    public void A_fall_of_two_metres_eighty_over_a_metre_is_a_diameter_of_2_008()
    {
        // 1.13097 m2 x 2.8 m = 3.1667 m3; sqrt(4 x 3.1667 / pi) = 2.0080, worked out by hand.
        var read = Read(Drawn(2.8, rises: 6), 1.2, 1);

        read.Cycles[2].SandLeftCubicMetres!.Value.ShouldBe(3.1667, 0.06);
        read.Cycles[2].DiameterMetres!.Value.ShouldBe(2.0080, 0.02);
    }

    [Fact]
    public void Sand_pushed_back_counts_off()
    {
        var read = Read(Drawn(3.4722, rises: 6, pushedBack: 0.3), 1.2, 0.8);

        read.Cycles[3].SandLeftCubicMetres!.Value.ShouldBe(1.13097 * (3.4722 - 0.3), 0.06);
        read.Cycles[3].PushedBackCubicMetres!.Value.ShouldBe(1.13097 * 0.3, 0.08);
    }

    [Fact]
    public void A_hang_up_above_the_next_re_drive_is_closed_by_it_and_one_below_it_stays_open()
    {
        var closed = Read(Drawn(3.4, rises: 8, hangAt: 4, hangFrom: 1.5), 1.2, 0.8);
        var open = Read(Drawn(3.4, rises: 8, hangAt: 4, hangFrom: 0.2), 1.2, 0.8);

        var first = closed.Events.Single(one => one.Kind == LogEventKind.HangUp);
        (first.Open, closed.OpenHangUpMetres).ShouldBe((false, 0));
        first.SizeMetres!.Value.ShouldBe(0.8, 0.1);
        open.Events.Single(one => one.Kind == LogEventKind.HangUp).Open.ShouldBeTrue();
        open.OpenHangUpMetres.ShouldBe(0.8, 0.1);
    }

    [Fact]
    public void A_gauge_that_stands_still_is_told_as_such_and_not_as_sand_that_hung()
    {
        var (seconds, tip, sand) = Drawn(3.4, rises: 8);
        var (from, to) = Withdrawal(tip, 4);
        for (var index = from; index < to; index++) sand[index] = sand[from];

        var read = Read((seconds, tip, sand), 1.2, 0.8);

        read.Events.ShouldHaveSingleItem().Kind.ShouldBe(LogEventKind.SensorStuck);
        read.OpenHangUpMetres.ShouldBe(0);
    }

    [Fact]
    public void Sand_that_hung_while_the_gauge_did_not_read_shows_afterwards()
    {
        var (seconds, tip, sand) = Drawn(3.4, rises: 8, hangAt: 4, hangFrom: 0.5);
        var (from, to) = Withdrawal(tip, 4);
        for (var index = from; index < to - 20; index++) sand[index] = double.NaN;

        var hung = Read((seconds, tip, sand), 1.2, 0.8).Events.Single(one => one.Kind == LogEventKind.HangUp);

        hung.SizeMetres!.Value.ShouldBe(0.8, 0.15);
        hung.Note.ShouldContain("While the sand gauge saw nothing");
    }

    [Fact]
    public void Where_the_gauge_read_nothing_over_a_re_drive_too_sand_that_hung_is_told_by_strokes()
    {
        var (seconds, tip, sand) = Drawn(3.4, rises: 8, hangAt: 4, hangFrom: 0.5);
        Blind(sand, Withdrawal(tip, 4).From, Withdrawal(tip, 5).From + 20);

        var hung = Read((seconds, tip, sand), 1.2, 0.8).Events.Single(one => one.Kind == LogEventKind.HangUp);

        hung.SizeMetres!.Value.ShouldBe(0.8, 0.1);
        (hung.FromLevelMetres, hung.ToLevelMetres, hung.Open).ShouldSatisfyAllConditions(
            one => one.FromLevelMetres.ShouldBe(-21, 0.05), one => one.ToLevelMetres.ShouldBe(-16.6, 0.05), one => one.Open.ShouldBeTrue());
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(4)]
    public void Where_it_read_nothing_for_most_of_the_pile_a_hang_up_is_said_not_to_be_excluded(int hangAt)
    {
        var (seconds, tip, sand) = Drawn(3.4, rises: 16, hangAt: hangAt, hangFrom: 0.5);
        Blind(sand, Withdrawal(tip, 1).From, Withdrawal(tip, 11).From + 20);

        var read = Read((seconds, tip, sand), 1.2, 0.8);

        // Ten re-drives of 0.09 m spread each, their mean known from six: 2 x 0.09 x sqrt(10 + 10 x 10 / 6) = 0.93 m, so that
        // 0.5 m is not excluded and 0.8 m is not certain.
        var doubt = read.Events.Single(one => one.Kind is LogEventKind.HangUp or LogEventKind.HangUpNotExcluded);
        doubt.Kind.ShouldBe(LogEventKind.HangUpNotExcluded);
        doubt.SizeMetres!.Value.ShouldBe((hangAt < 0 ? 0 : 0.8) + 0.93, 0.05);
        LogFigures figures = LogFigures.Of(read, Context(1.2, 0.8, tip));
        figures.OpenHangUpMetres.ShouldBe(0);
        figures.NotExcluded!.UpToMetres.ShouldBe(doubt.SizeMetres.Value);
    }

    [Fact]
    public void A_log_that_begins_beyond_the_range_of_its_gauge_excludes_nothing_before_its_first_reading()
    {
        var (seconds, tip, sand) = Drawn(3.4, rises: 8);
        for (var index = 0; index < sand.Length; index++) sand[index] = Math.Min(sand[index], 20);

        var doubt = Read((seconds, tip, sand), 1.2, 0.8).Events.Single(one => one.Kind == LogEventKind.HangUpNotExcluded);

        // 29.2 m stand in the casing and fall by 3.4 m a cycle: the third withdrawal comes into range, after 10.2 m in all.
        doubt.FromLevelMetres.ShouldBe(-25, 0.05);
        doubt.SizeMetres!.Value.ShouldBe(10.2, 0.05);
    }

    [Fact]
    public void A_gauge_without_noise_at_the_end_of_its_range_is_known_by_a_charge_that_does_not_move_it()
    {
        var (seconds, tip, sand) = Drawn(3.4, rises: 8);
        double[] charge = new double[seconds.Length], still = [.. sand.Select(height => Math.Min(Math.Round(height), 22))];
        charge[Array.FindIndex(tip, level => level <= -24.9) + 5] = 0.01;

        var read = LogInterpreter.Read(
            new PileLog(
                Instant.FromUtc(2026, 4, 1, 6, 0), TipMeasure.Level, SandMeasure.HeightAboveTip, seconds,
                new Dictionary<LogChannel, ReadOnlyMemory<double>> { [LogChannel.Tip] = tip, [LogChannel.Sand] = still, [LogChannel.Charge] = charge }),
            Context(1.2, 0.8, tip));

        read.Events.ShouldContain(one => one.Kind == LogEventKind.GaugeDeadZone && one.Note.Contains("above 22.00 m"));
        read.Events.ShouldNotContain(one => one.Kind == LogEventKind.HangUp && one.FromSeconds < seconds[Withdrawal(tip, 1).To]);
    }

    [Fact]
    public void The_zero_of_a_gauge_counts_off()
    {
        var (seconds, tip, sand) = Drawn(3.4, rises: 5);
        double[] high = [.. sand.Select(height => height + 0.7)];
        PileLog log = new(
            Instant.FromUtc(2026, 4, 1, 6, 0), TipMeasure.Level, SandMeasure.HeightAboveTip, seconds,
            new Dictionary<LogChannel, ReadOnlyMemory<double>> { [LogChannel.Tip] = tip, [LogChannel.Sand] = high });

        LogColumns.Of(log, Context(1.2, 0.8, tip) with { GaugeZeroMetres = 0.7 }).SandHeights.Span[100].ShouldBe(sand[100], 1e-9);
        LogInterpreter.Read(log, Context(1.2, 0.8, tip) with { GaugeZeroMetres = 0.7 }).SandLeftCubicMetres!.Value
            .ShouldBe(Read((seconds, tip, sand), 1.2, 0.8).SandLeftCubicMetres!.Value, 1e-6);
    }

    [Fact]
    public void Samples_that_stop_for_a_while_are_a_gap_and_a_clock_set_back_is_a_jump()
    {
        var (seconds, tip, sand) = Drawn(3.4, rises: 5);
        double[] late = [.. seconds.Select((second, index) => second + (index >= 400 ? 90 : 0))];
        double[] back = [.. seconds.Select((second, index) => second - (index >= 400 ? 30 : 0))];

        Read((late, tip, sand), 1.2, 0.8).Events.ShouldContain(one => one.Kind == LogEventKind.RecordGap || one.Kind == LogEventKind.ClockJump);
        var mended = Read((back, tip, sand), 1.2, 0.8);
        mended.Events.ShouldContain(one => one.Kind == LogEventKind.ClockJump);
        mended.Cycles.Count.ShouldBe(5);
    }

    [Fact]
    public void A_log_without_a_sand_gauge_tells_levels_and_cycles_and_no_sand()
    {
        var (seconds, tip, _) = Drawn(3.4, rises: 5);
        PileLog log = new(Instant.FromUtc(2026, 4, 1, 6, 0), TipMeasure.Level, SandMeasure.Level, seconds, new Dictionary<LogChannel, ReadOnlyMemory<double>> { [LogChannel.Tip] = tip });

        var read = LogInterpreter.Read(log, Context(1.2, 0.8, tip));

        (read.Cycles.Count, read.SandLeftCubicMetres, read.Least).ShouldBe((5, null, null));
        read.BaseLevelMetres!.Value.ShouldBe(-25, 0.05);
    }

    [Fact]
    public void Numbers_set_by_name_are_used_and_unknown_names_are_told()
    {
        LogConstants set = LogConstants.Standard.With(new Dictionary<string, double> { ["hangUpMetres"] = 2 });

        set.HangUpMetres.ShouldBe(2);
        LogConstants.Standard.HangUpMetres.ShouldNotBe(2);
        LogConstants.Unknown(new Dictionary<string, double> { ["hangUpMetres"] = 2, ["hangup"] = 1 }).ShouldBe(["hangup"]);
    }

    private static LogInterpretation Read((double[] Seconds, double[] Tip, double[] Sand) drawn, double casing, double factor)
    {
        PileLog log = new(
            Instant.FromUtc(2026, 4, 1, 6, 0), TipMeasure.Level, SandMeasure.HeightAboveTip, drawn.Seconds,
            new Dictionary<LogChannel, ReadOnlyMemory<double>> { [LogChannel.Tip] = drawn.Tip, [LogChannel.Sand] = drawn.Sand });
        return LogInterpreter.Read(log, Context(casing, factor, drawn.Tip));
    }

    private static LogContext Context(double casing, double factor, double[] tip) => new(casing, null, factor, null, null, null, null, LogConstants.Standard);

    private static void Blind(double[] sand, int from, int to) => Array.Fill(sand, double.NaN, from, to - from);

    /// <summary>First and last sample of the withdrawal of a cycle.</summary>
    private static (int From, int To) Withdrawal(double[] tip, int cycle)
    {
        var bottom = -25 + cycle;
        var from = Array.FindLastIndex(tip, level => Math.Abs(level - bottom) < 1e-9);
        var to = from;
        while (tip[to + 1] > tip[to]) to++;
        return (from, to);
    }

    /// <summary>A second a sample: down from -12 to -25, then one metre of pile a cycle; the casing holds sand enough, and the gauge trembles by 2 cm as gauges do.</summary>
    private static (double[] Seconds, double[] Tip, double[] Sand) Drawn(double withdrawal, int rises, double pushedBack = 0, int hangAt = -1, double hangFrom = 0)
    {
        List<double> tip = [], sand = [];
        double level = -12, height = 2 + (rises * withdrawal);
        void Go(double to, double sandTo, double speed)
        {
            int steps = Math.Max(1, (int)Math.Round(Math.Max(Math.Abs(to - level) / speed, to == level ? speed : 1)));
            for (int step = 1; step <= steps; step++)
            {
                tip.Add(level + ((to - level) * step / steps));
                sand.Add(height + ((sandTo - height) * step / steps));
            }

            (level, height) = (to, sandTo);
        }

        Go(level, height, 20);
        Go(-25, height, 0.05);
        Go(-25, height, 20);
        for (int rise = 0; rise < rises; rise++)
        {
            double bottom = level;
            if (rise == hangAt)
            {
                Go(bottom + hangFrom, height - hangFrom, 0.05);
                Go(bottom + hangFrom + 0.8, height, 0.05);
                Go(bottom + withdrawal, height - (withdrawal - hangFrom - 0.8), 0.05);
            }
            else
            {
                Go(bottom + withdrawal, height - withdrawal, 0.05);
            }

            Go(level, height, 6);
            Go(bottom + 1, height + pushedBack, 0.06);
            Go(level, height, 10);
        }

        Go(-10, height, 0.1);
        Go(-10, height, 15);
        return ([.. Enumerable.Range(0, tip.Count).Select(index => (double)index)], [.. tip], [.. sand.Select((metres, index) => metres + (0.01 * ((index * 7919 % 5) - 2)))]);
    }
}
