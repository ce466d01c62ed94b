using System.Diagnostics;
using System.Globalization;
using SiteProgress.Core.Logs;
using SiteProgress.DemoGenerator;
using SiteProgress.DemoGenerator.Logs;

namespace SiteProgress.Bench.Logs;

/// <summary>Interpretation of logs of about 3,600 samples against summing every value of the same columns once, both from memory.</summary>
internal static class LogTimes
{
    private const string Ours = "interpretation", Limit = "one reading";
    private const int Logs = 300;
    private const double Goal = 0.2;

    public static async Task<IReadOnlyList<Outcome>> RunAsync(TextWriter output)
    {
        // More bytes than the processor's caches hold, so that the reading is one from memory.
        var logs = Enumerable.Range(1, Logs).Select(Make).ToArray();
        var context = LogMaker.Context(logs[0].Design);
        var samples = logs.Select(LogMaker.Samples).ToArray();
        double total = samples.Sum(log => (double)log.Count);
        double kept = 0, sum = 0;
        var measured = await Rounds.RunAsync([Ours, Limit], name =>
        {
            var start = Stopwatch.GetTimestamp();
            if (name == Ours) foreach (var log in samples) kept += LogInterpreter.Read(log, context).Cycles.Count;
            else foreach (var log in samples) sum += Sum(log);
            return Task.FromResult(Stopwatch.GetElapsedTime(start).TotalSeconds);
        });
        if (kept == 0 || double.IsNaN(sum)) throw new InvalidDataException("Nothing was read.");
        var before = GC.GetAllocatedBytesForCurrentThread();
        foreach (var log in samples) LogInterpreter.Read(log, context);
        var allocated = (GC.GetAllocatedBytesForCurrentThread() - before) / Logs;
        foreach (var name in new[] { Ours, Limit })
            await output.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"{name,-16}{total / Rounds.Median(measured[name]) / 1e6,10:0.0} million samples/s, {Rounds.Median(measured[name]) / Logs * 1e6,8:0} us a log of {total / Logs:0} samples"));
        await output.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"allocated by a log's interpretation: {allocated / 1024.0:0} kB; its samples in memory: {samples.Average(log => (log.Channels.Count() + 1) * log.Count * 8 / 1024.0):0} kB; as canonical bytes: {samples.Average(log => LogBytes.Write(log).Length / 1024.0):0} kB"));
        return [new("logs-interpretation-against-one-reading", Rounds.Median(measured[Limit]) / Rounds.Median(measured[Ours]), Goal)];
    }

    private static MadeLog Make(int seed)
    {
        var chance = ChanceSource.For(seed, "log times");
        var design = MadeLog.AnyDesign(chance) with { BuildingMinutes = 40, PenetrationMinutes = 16 };
        return MadeLog.Make(design, LogGauges.Family("white", chance) with { Spacing = 1, SandMeasure = 1, TipMeasure = 1 }, chance);
    }

    private static double Sum(PileLog log)
    {
        double sum = 0;
        foreach (double value in log.Seconds.Span) sum += value;
        foreach (var channel in log.Channels)
        {
            foreach (double value in log.Of(channel)) sum += value;
        }

        return sum;
    }
}
