using SiteProgress.Core.Logs;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Exchange;
using SiteProgress.Exchange.PileLogs;
using SiteProgress.Storage.Records;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>Puts a file of log samples together to one record a log, with the samples beside it under their hash.</summary>
internal static class LogRows
{
    /// <summary>Fewest samples of a log.</summary>
    private const int LeastSamples = 2;

    /// <summary>The upload with logs as rows.</summary>
    /// <param name="row">What is known of the file.</param>
    /// <param name="reading">The logs as read.</param>
    /// <param name="barges">Barges it may be of; the only one is that of a file that names none.</param>
    public static ReadUpload Put(UploadRow row, TableReading<ReadLog> reading, IReadOnlyList<Barge> barges)
    {
        List<RecordBody> bodies = [];
        List<ImportProblem> problems = [.. reading.Problems];
        List<string> assumptions = [.. reading.Assumptions];
        List<long> leftOut = [.. reading.LinesLeftOut];
        Dictionary<string, PileLog> logs = [];
        string? only = barges is [{ Name: var name }] ? name : null;
        foreach (ReadRow<ReadLog> one in reading.IsRefused ? [] : reading.Rows)
        {
            if (WhyNot(one, only) is { } problem)
            {
                problems.Add(problem);
                leftOut.Add(one.Line);
                continue;
            }

            LoggedPile log = Of(one.Value, one.Value.Barge ?? only!);
            logs[log.Sha256] = one.Value.Log;
            bodies.Add(new PileLoggedBody(one.Line, log));
        }

        if (only is not null && reading.Rows.Any(one => one.Value.Barge is null)) assumptions.Add($"No barge is named; the logs are taken as those of {only}.");
        return new ReadUpload(
            row, BatchContent.PileLogs, bodies, problems, reading.ProblemCount + problems.Count - reading.Problems.Count, reading.Warnings, reading.WarningCount,
            assumptions, reading.Rows.Count, leftOut)
        {
            Header = reading.Header,
            Questions = reading.Questions,
            Logs = logs,
        };
    }

    /// <summary>A log as it is recorded.</summary>
    public static LoggedPile Of(ReadLog read, string barge)
        => new(read.RecordId, read.PileNumber, barge, read.Casing, read.Log.FirstSample, read.Log.LastSample, read.Log.Count, LogBytes.Hash(LogBytes.Write(read.Log)));

    private static ImportProblem? WhyNot(ReadRow<ReadLog> one, string? only) => one.Value switch
    {
        { Barge: null } when only is null => new ImportProblem(one.Line, "Barge", "", "the barge of the log; say it for all rows where the file names none", false),
        { Log.Count: < LeastSamples } => new ImportProblem(one.Line, null, null, "a log of several samples; rows of one log follow each other", false),
        { Log: var log } when log.LastSample < log.FirstSample => new ImportProblem(one.Line, "Time", null, "samples in the order of time; the last is before the first", false),
        _ => null,
    };
}
