using NodaTime;
using Shouldly;
using SiteProgress.Core.Logs;
using Xunit;

namespace SiteProgress.Core.Tests.Logs;

public sealed class LogBytesTests
{
    private static readonly Instant Begin = Instant.FromUtc(2026, 4, 1, 6, 0);

    [Fact]
    public void Every_sample_comes_back_to_the_bit_missing_ones_as_missing()
    {
        double[] seconds = [0, 0.5, 1.25, 2], tip = [-12.34, double.NaN, 0.1 + 0.2, -12.4], sand = [0, -1.5, 1e9, 3];
        var log = Make(seconds, tip, sand);

        var back = LogBytes.Read(LogBytes.Write(log));

        back.FirstSample.ShouldBe(Begin);
        back.Seconds.ToArray().ShouldBe(seconds);
        Bits(back.Of(LogChannel.Tip)).ShouldBe(Bits(tip));
        Bits(back.Of(LogChannel.Sand)).ShouldBe(Bits(sand));
        back.Channels.ShouldBe([LogChannel.Tip, LogChannel.Sand]);
    }

    [Fact]
    public void The_hash_covers_every_sample_and_what_it_measures()
    {
        double[] seconds = [0, 1], tip = [-12.3, -12.4], sand = [4, 4];
        var hash = LogBytes.Hash(LogBytes.Write(Make(seconds, tip, sand)));

        LogBytes.Hash(LogBytes.Write(Make(seconds, tip, [4, 4.01]))).ShouldNotBe(hash);
        LogBytes.Hash(LogBytes.Write(Make(seconds, tip, sand, SandMeasure.Level))).ShouldNotBe(hash);
        LogBytes.Hash(LogBytes.Write(Make(seconds, tip, sand))).ShouldBe(hash);
    }

    [Fact]
    public void Logged_digits_take_about_a_byte_a_sample()
    {
        double[] seconds = [.. Enumerable.Range(0, 1000).Select(index => (double)index)];
        double[] tip = [.. seconds.Select(second => Math.Round(-12 - (0.03 * second), 2))];

        LogBytes.Write(Make(seconds, tip, tip)).Length.ShouldBeLessThan(3_100);
    }

    [Fact]
    public void Bytes_cut_short_are_refused()
    {
        byte[] bytes = LogBytes.Write(Make([0, 1], [-1, -2], [3, 4]));

        Should.Throw<InvalidDataException>(() => LogBytes.Read(bytes.AsSpan(0, bytes.Length - 1)));
        Should.Throw<InvalidDataException>(() => LogBytes.Read("something else altogether, and long enough"u8));
    }

    private static PileLog Make(double[] seconds, double[] tip, double[] sand, SandMeasure measure = SandMeasure.HeightAboveTip) => new(
        Begin, TipMeasure.Level, measure, seconds, new Dictionary<LogChannel, ReadOnlyMemory<double>> { [LogChannel.Tip] = tip, [LogChannel.Sand] = sand });

    private static long[] Bits(ReadOnlySpan<double> values) => Array.ConvertAll(values.ToArray(), BitConverter.DoubleToInt64Bits);
}
