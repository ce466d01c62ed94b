using SiteProgress.Exchange.CheckMeasurements;
using SiteProgress.Exchange.ControlPoints;
using SiteProgress.Exchange.Diaries;
using SiteProgress.Exchange.Installations;
using SiteProgress.Exchange.PileSchedules;
using SiteProgress.Exchange.SandDeliveries;
using SiteProgress.Exchange.ProgressSchedules;
using NodaTime;
using SiteProgress.Core.Piles;

namespace SiteProgress.Exchange.Tests;

/// <summary>The demo's files, three looks each, are read whole: as many rows as a plain count of lines finds.</summary>
public sealed class SeedDataTests
{
    private static readonly ReadingChoices Choices = Given.Choices with
    {
        Barges = [.. new[] { "Tern", "Plover", "Curlew" }.Select(
            name => new Barge(name, [.. Enumerable.Range(1, 3).Select(number => new Casing(number, 0.8, 0.9, 0, 0))], null))],
        SandSources = ["Long Shoal", "Outer Ridge"],
        Now = Instant.FromUtc(2026, 12, 31, 0, 0),
    };

    public static TheoryData<string> Schedules => Files("", "planned-piles-*.csv");

    public static TheoryData<string> AsBuilt => Files("as-built", "*");

    [Theory]
    [MemberData(nameof(Schedules))]
    public void A_schedule_is_read_whole(string file) => ShouldBeWhole(file, FileKind.PlannedPiles, PlannedPileReader.Read);

    [Theory]
    [MemberData(nameof(AsBuilt))]
    public void A_file_of_installations_is_read_whole(string file) => ShouldBeWhole(file, FileKind.Installations, InstallationReader.Read);

    [Fact]
    public void Check_measurements_are_read_whole()
        => ShouldBeWhole("check-measurements.csv", FileKind.CheckMeasurements, CheckMeasurementReader.Read);

    [Fact]
    public void Sand_deliveries_are_read_whole()
        => ShouldBeWhole("sand-deliveries.csv", FileKind.SandDeliveries, SandDeliveryReader.Read);

    [Fact]
    public void Control_points_are_read_whole() => ShouldBeWhole("control-points.csv", FileKind.ControlPoints, ControlPointReader.Read);

    [Fact]
    public void The_diary_is_read_whole() => ShouldBeWhole("diary.csv", FileKind.DiaryEntries, DiaryReader.Read);

    [Fact]
    public void The_schedule_of_progress_is_read_whole() => ShouldBeWhole("planned-progress.csv", FileKind.PlannedProgress, PlannedProgressReader.Read);

    [Fact]
    public void There_are_schedules_and_installations_to_read()
    {
        Schedules.Count.ShouldBe(3);
        AsBuilt.Count.ShouldBeGreaterThanOrEqualTo(10);
    }

    private static void ShouldBeWhole<T>(
        string file, FileKind kind, Func<Stream, ReadingChoices, CancellationToken, TableReading<T>> read)
    {
        var path = Path.Combine(SampleFile.SeedFolder, file);
        // One line is the header; lines with # stand above it.
        var lines = File.ReadLines(path).Count(line => line.Length > 0 && !line.StartsWith('#')) - 1;
        using var stream = File.OpenRead(path);

        FileKindGuess.From(stream, Choices, TestContext.Current.CancellationToken).Kind.ShouldBe(kind);
        var reading = read(stream, Choices, TestContext.Current.CancellationToken).WithoutProblems();

        reading.WarningCount.ShouldBe(0, string.Join('\n', reading.Warnings.Select(warning => warning.Sentence)));
        reading.Rows.Count.ShouldBe(lines);
        reading.RowsRead.ShouldBe(lines);
    }

    private static TheoryData<string> Files(string folder, string pattern)
        => [.. Directory.GetFiles(Path.Combine(SampleFile.SeedFolder, folder), pattern)
            .Select(path => Path.Combine(folder, Path.GetFileName(path))).Order(StringComparer.Ordinal)];
}
