using NodaTime;
using SiteProgress.Core.Logs;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Exchange;
using SiteProgress.Exchange.Calibrations;
using SiteProgress.Exchange.CheckMeasurements;
using SiteProgress.Exchange.WaterLevels;
using SiteProgress.Exchange.Diaries;
using SiteProgress.Exchange.GroundInvestigations;
using SiteProgress.Exchange.Installations;
using SiteProgress.Exchange.PileLogs;
using SiteProgress.Exchange.PileSchedules;
using SiteProgress.Exchange.SandDeliveries;
using SiteProgress.Exchange.SeabedSurveys;
using SiteProgress.Exchange.ProgressSchedules;
using SiteProgress.Jobs.Access;
using SiteProgress.Storage.Records;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>Reads an upload into record bodies, the same way for the preview and for the recording.</summary>
public sealed class UploadReader(UploadStore uploads, TimeProvider clock)
{
    internal async Task<ReadUpload?> ReadAsync(Permit permit, Guid upload, SiteHistory history, UploadChoices asked, CancellationToken cancellation)
    {
        UploadRow? row = await uploads.FindAsync(permit.Site, upload, cancellation);
        if (row is null) return null;
        await using Stream bytes = uploads.Open(permit.Site, upload);
        return Read(row, bytes, history, asked, Instant.FromDateTimeOffset(clock.GetUtcNow()), guess => asked is { IsNothing: true, TakesUpRemembered: true } && guess.Header is { } header
            ? RememberedChoices.Find(history, permit.Account, header.Shape, header.Line)
            : null, cancellation);
    }

    /// <summary>Reads a file the one way there is.</summary>
    /// <param name="row">What is known of the file beside its bytes.</param>
    /// <param name="bytes">The bytes.</param>
    /// <param name="history">Records of the site.</param>
    /// <param name="asked">What the person chose.</param>
    /// <param name="now">The moment of reading.</param>
    /// <param name="remember">Gives what was chosen before for such a header.</param>
    /// <param name="cancellation">Ends the reading.</param>
    internal static ReadUpload Read(
        UploadRow row, Stream bytes, SiteHistory history, UploadChoices asked, Instant now, Func<FileKindGuess, Remembered?> remember, CancellationToken cancellation)
    {
        using TemporaryCopies copies = new();
        ReadingChoices reading = asked.Reading(history, now) with { CopyToDisk = copies.Keep };
        FileKindGuess guess = FileKindGuess.From(bytes, reading, cancellation);
        Remembered? remembered = remember(guess);
        UploadChoices choices = remembered is null ? asked : remembered.Choices with { Design = asked.Design };
        if (remembered is not null) reading = choices.Reading(history, now) with { CopyToDisk = copies.Keep };
        BatchContent? content = choices.Content ?? ContentOf(guess.Kind);
        ReadUpload read = content is { } known
            ? Read(row, known, bytes, reading, history.Settings!.Barges, cancellation)
            : new ReadUpload(row, null, [], [guess.Problem ?? new ImportProblem(0, null, guess.Reason, "a file of a kind that can be recorded", true)], 1, [], 0, [], 0, []) { Header = guess.Header };
        read = DesignStatements.Put(read, history, choices.Design, now);
        return read with
        {
            Choices = choices,
            Remembered = remembered,
            Assumptions = remembered is null ? read.Assumptions : [.. read.Assumptions, remembered.Sentence],
        };
    }

    private static ReadUpload Read(
        UploadRow row, BatchContent content, Stream bytes, ReadingChoices reading, IReadOnlyList<Barge> barges, CancellationToken cancellation) => content switch
    {
        BatchContent.PlannedPiles => Read(row, content, PlannedPileReader.Read(bytes, reading, cancellation), one => new PilePlannedBody(one.Line, one.Value)),
        BatchContent.Installations => Read(row, content, InstallationReader.Read(bytes, reading, cancellation), one => new PileInstalledBody(one.Line, one.Value)),
        BatchContent.CheckMeasurements => Read(row, content, CheckMeasurementReader.Read(bytes, reading, cancellation), one => new PositionCheckedBody(one.Line, one.Value)),
        BatchContent.PenetrationTests => Read(row, content, PenetrationTestReader.Read(bytes, reading, cancellation), one => new PenetrationTestedBody(one.Line, one.Value)),
        BatchContent.Calibrations => Read(row, content, CalibrationReader.Read(bytes, reading, cancellation), one => new CalibratedBody(one.Line, one.Value)),
        BatchContent.WaterLevels => WaterDays.Put(Read(row, content, WaterLevelReader.Read(bytes, reading, cancellation), one => new WaterDays.Reading(one.Line, one.Value))),
        BatchContent.SeabedSoundings => SoundingBlocks.Put(Read(row, content, SeabedSurveyReader.Read(bytes, reading, cancellation), one => new SoundingBlocks.Row(one.Line, one.Value))),
        BatchContent.SandDeliveries => Read(row, content, SandDeliveryReader.Read(bytes, reading, cancellation), one => new SandDeliveredBody(one.Line, one.Value)),
        BatchContent.PileLogs => LogRows.Put(row, PileLogReader.Read(bytes, reading, cancellation), barges),
        BatchContent.DiaryEntries => Read(row, content, DiaryReader.Read(bytes, reading, cancellation), one => new DiaryLineBody(one.Line, one.Value)),
        BatchContent.PlannedProgress => Read(row, content, PlannedProgressReader.Read(bytes, reading, cancellation), one => new ProgressPlannedBody(one.Line, one.Value)),
        _ => throw new ArgumentOutOfRangeException(nameof(content), content, "unknown content"),
    };

    private static BatchContent? ContentOf(FileKind kind) => kind switch
    {
        FileKind.PlannedPiles => BatchContent.PlannedPiles,
        FileKind.Installations => BatchContent.Installations,
        FileKind.CheckMeasurements => BatchContent.CheckMeasurements,
        FileKind.PenetrationTests => BatchContent.PenetrationTests,
        FileKind.Calibrations => BatchContent.Calibrations,
        FileKind.WaterLevels => BatchContent.WaterLevels,
        FileKind.SeabedSoundings => BatchContent.SeabedSoundings,
        FileKind.SandDeliveries => BatchContent.SandDeliveries,
        FileKind.PileLogs => BatchContent.PileLogs,
        FileKind.DiaryEntries => BatchContent.DiaryEntries,
        FileKind.PlannedProgress => BatchContent.PlannedProgress,
        _ => null,
    };

    private static ReadUpload Read<T>(UploadRow row, BatchContent content, TableReading<T> reading, Func<ReadRow<T>, RecordBody> body) => new(
        row, content, reading.IsRefused ? [] : reading.Rows.Select(body).ToArray(),
        reading.Problems, reading.ProblemCount, reading.Warnings, reading.WarningCount, reading.Assumptions, reading.RowsRead, reading.LinesLeftOut)
    {
        Header = reading.Header,
        Questions = reading.Questions,
    };
}

/// <summary>An upload as read.</summary>
internal sealed record ReadUpload(
    UploadRow Upload,
    BatchContent? Content,
    IReadOnlyList<RecordBody> Rows,
    IReadOnlyList<ImportProblem> Problems,
    int ProblemCount,
    IReadOnlyList<ImportProblem> Warnings,
    int WarningCount,
    IReadOnlyList<string> Assumptions,
    int RowsRead,
    IReadOnlyList<long> LinesLeftOut)
{
    public UploadChoices Choices { get; init; } = UploadChoices.AsTheFileSays;

    public Remembered? Remembered { get; init; }

    /// <summary>Rows that are recorded, where several of the file make one record.</summary>
    public int? RowsRecorded { get; init; }

    /// <summary>For planned piles: what they say of themselves as a revision of the design.</summary>
    public DesignStatement? Design { get; init; }

    /// <summary>True where a pile of the design is named again or may be taken out.</summary>
    public bool RevisesDesign { get; init; }

    /// <summary>Why the revision cannot stand as it was asked for.</summary>
    public string? DesignRefusal { get; init; }

    public HeaderReading? Header { get; init; }

    /// <summary>Samples of the logs of the file, by their hash.</summary>
    public IReadOnlyDictionary<string, PileLog> Logs { get; init; } = new Dictionary<string, PileLog>();

    public IReadOnlyList<OpenQuestion> Questions { get; init; } = [];

    public bool Refused => Content is null || Problems.Any(problem => problem.WholeFile) || Rows.Count == 0;

    public IReadOnlyList<RecordBody> Bodies(int adjustmentRevision) =>
    [
        new BatchBody(
            Upload.Upload, Upload.FileName, Upload.Sha256, Content!.Value, adjustmentRevision, RowsRead, RowsRecorded ?? Rows.Count, LinesLeftOut, Assumptions, Reading: Reading, Design: Design),
        .. Rows,
    ];

    private BatchReading? Reading
    {
        get
        {
            NamedChoice[] choices = [.. ChoicePairs.Of(Choices).Where(pair => pair.Name != ChoicePairs.Remembered && !DesignChoice.IsPair(pair.Name)).Select(pair => new NamedChoice(pair.Name, pair.Value))];
            return Header is null && choices.Length == 0 ? null : new BatchReading(Header?.Shape, choices.Length == 0 ? null : choices);
        }
    }
}
