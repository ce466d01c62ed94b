using NodaTime;
using SiteProgress.Core.Logs;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.PileLogs;

/// <summary>A log with what its file says of where it belongs.</summary>
/// <param name="RecordId">The sender's identifier of the installation.</param>
/// <param name="PileNumber">Pile number as the crew wrote it.</param>
/// <param name="Barge">Barge.</param>
/// <param name="Casing">Number of the casing.</param>
/// <param name="Log">The samples.</param>
public sealed record ReadLog(string? RecordId, string? PileNumber, string? Barge, int? Casing, PileLog Log);

/// <summary>
/// Reads logs from a text table, a sample a row: one pile or many in one file. Rows of one record, pile, barge and casing that
/// follow each other are one log; what is the same in all its rows is kept once, samples as columns.
/// </summary>
public static class PileLogReader
{
    /// <summary>Most samples of one file: a day of three barges at two samples a second.</summary>
    private const int MostSamples = 3_000_000;

    /// <summary>Reads a file. A row needs its time and the casing tip.</summary>
    /// <param name="stream">The file, not packed.</param>
    /// <param name="choices">What to read with.</param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <returns>The logs by the line of their first sample, and every problem by line.</returns>
    /// <exception cref="OperationCanceledException">The reading was ended.</exception>
    public static TableReading<ReadLog> Read(Stream stream, ReadingChoices choices, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(choices);
        var layout = new PileLogLayout(choices.GridAxes);
        string[] barges = [.. choices.Barges.Select(barge => barge.Name)];
        var samples = TableWalk<Sample>.Read(stream, choices with { MostRows = MostSamples }, layout, row => ReadRow(row, layout, barges), cancellation);
        return new TableReading<ReadLog>
        {
            Rows = samples.IsRefused ? [] : Gather(samples.Rows),
            Problems = samples.Problems,
            ProblemCount = samples.ProblemCount,
            Warnings = samples.Warnings,
            WarningCount = samples.WarningCount,
            Assumptions = samples.Assumptions,
            RowsRead = samples.RowsRead,
            LinesLeftOut = samples.LinesLeftOut,
            Header = samples.Header,
            Questions = samples.Questions,
        };
    }

    private static Sample? ReadRow(RowCells row, PileLogLayout layout, string[] barges)
    {
        var sample = new Sample
        {
            Record = row.Text(layout.Record, 80),
            Pile = row.PileNumber(layout.PileNumber),
            Barge = barges.Length == 0 ? row.Text(layout.Barge, 80) : row.Known(layout.Barge, barges, "a barge"),
            Casing = row.Whole(layout.Casing, 1, 99),
            TipLevel = row.Number(layout.TipLevel),
            TipDepth = row.Number(layout.TipDepth),
            SandHeight = row.Number(layout.SandHeight),
            SandFromTop = row.Number(layout.SandFromTop),
            SandLevel = row.Number(layout.SandLevel),
            Others = [.. layout.Others.Select(other => row.Number(other.Column))],
        };
        var at = row.Time(layout.At);
        row.Require(layout.At, "a time");
        if (at is not { } instant) return null;
        sample.At = instant;
        return sample;
    }

    private static List<ReadRow<ReadLog>> Gather(IReadOnlyList<ReadRow<Sample>> samples)
    {
        List<ReadRow<ReadLog>> logs = [];
        for (var from = 0; from < samples.Count;)
        {
            var to = from + 1;
            while (to < samples.Count && samples[to].Value.IsOfSameLog(samples[from].Value)) to++;
            var rows = samples.Skip(from).Take(to - from).Select(row => row.Value).ToArray();
            if (rows.Any(sample => sample.TipLevel is not null || sample.TipDepth is not null))
                logs.Add(new ReadRow<ReadLog>(samples[from].Line, LogOf(rows)));
            from = to;
        }

        return logs;
    }

    private static ReadLog LogOf(Sample[] samples)
    {
        var first = samples[0];
        var byDepth = samples.All(sample => sample.TipLevel is null);
        var measure = samples.Any(sample => sample.SandHeight is not null) ? SandMeasure.HeightAboveTip
            : samples.Any(sample => sample.SandFromTop is not null) ? SandMeasure.DistanceFromTop : SandMeasure.Level;
        Dictionary<LogChannel, ReadOnlyMemory<double>> columns = new()
        {
            [LogChannel.Tip] = Column(samples, sample => byDepth ? sample.TipDepth : sample.TipLevel),
        };
        Add(columns, LogChannel.Sand, samples, sample => measure switch
        {
            SandMeasure.HeightAboveTip => sample.SandHeight,
            SandMeasure.DistanceFromTop => sample.SandFromTop,
            _ => sample.SandLevel,
        });
        LogChannel[] others = [LogChannel.AirPressure, LogChannel.HammerLoad, LogChannel.InclinationX, LogChannel.InclinationY, LogChannel.Charge, LogChannel.Valve, LogChannel.WaterLevel];
        for (var other = 0; other < others.Length; other++)
        {
            var place = other;
            Add(columns, others[other], samples, sample => sample.Others[place]);
        }

        double[] seconds = Array.ConvertAll(samples, sample => Math.Round((sample.At - first.At).TotalSeconds, 3));
        return new ReadLog(
            first.Record, first.Pile, first.Barge, first.Casing,
            new PileLog(first.At, byDepth ? TipMeasure.DepthBelowWater : TipMeasure.Level, measure, seconds, columns));
    }

    private static void Add(Dictionary<LogChannel, ReadOnlyMemory<double>> columns, LogChannel channel, Sample[] samples, Func<Sample, double?> value)
    {
        if (samples.Any(sample => value(sample) is not null)) columns[channel] = Column(samples, value);
    }

    private static double[] Column(Sample[] samples, Func<Sample, double?> value) => Array.ConvertAll(samples, sample => value(sample) ?? double.NaN);

    private sealed class Sample
    {
        public Instant At { get; set; }

        public required string? Record { get; init; }

        public required string? Pile { get; init; }

        public required string? Barge { get; init; }

        public required int? Casing { get; init; }

        public required double? TipLevel { get; init; }

        public required double? TipDepth { get; init; }

        public required double? SandHeight { get; init; }

        public required double? SandFromTop { get; init; }

        public required double? SandLevel { get; init; }

        public required double?[] Others { get; init; }

        public bool IsOfSameLog(Sample other) => Record == other.Record && Pile == other.Pile && Barge == other.Barge && Casing == other.Casing;
    }
}
