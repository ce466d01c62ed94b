using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Exchange;
using SiteProgress.Jobs.RecordsIn;

namespace SiteProgress.Jobs.Senders;

/// <summary>What a machine sent, as read: rows that could be read, each with an identifier, and what is wrong with the others.</summary>
internal sealed record SentRows(IReadOnlyList<SentRow> Rows, IReadOnlyList<RowProblem> Problems, IReadOnlyList<string> Assumptions, int RowsRead, bool WholeRefused, IReadOnlyList<long> SaidTwice)
{
    public static SentRows Of(TableReading<Installation> reading, SentForm form)
    {
        // A row of JSON has no line: its place in the list is what its sender can find again. The reader's line 1 is the header.
        long RowOf(long line) => form is SentForm.Json && line > 0 ? line - 1 : line;
        List<RowProblem> problems = [.. reading.Problems.Select(problem => new RowProblem(RowOf(problem.Line), null, problem.Column, problem.Found, problem.Expected))];
        List<SentRow> rows = [];
        if (!reading.IsRefused)
        {
            foreach (ReadRow<Installation> row in reading.Rows)
            {
                if (row.Value.RecordId is null) problems.Add(new RowProblem(RowOf(row.Line), null, "Record", "", "the sender's own identifier of the record; without one a record sent twice cannot be told"));
                else rows.Add(new SentRow(RowOf(row.Line), row.Value.Barge, row.Value.RecordId, row.Value));
            }
        }

        return new SentRows(rows, problems, reading.Assumptions, reading.RowsRead, reading.IsRefused || (reading.RowsRead == 0 && problems.Count == 0),
            [.. reading.LinesLeftOut.Select(RowOf).Except(problems.Select(problem => problem.Row))]);
    }

    /// <summary>Logs as rows: a row a log, at the line of its first sample, or of JSON at its place in the list.</summary>
    public static SentRows OfLogs(ReadUpload read)
    {
        List<RowProblem> problems = [.. read.Problems.Select(problem => new RowProblem(problem.Line, null, problem.Column, problem.Found, problem.Expected))];
        List<SentRow> rows = [];
        foreach (PileLoggedBody body in read.Rows.Cast<PileLoggedBody>())
        {
            if (body.Log.RecordId is not { } id) problems.Add(new RowProblem(body.Line, null, "Record", "", "the sender's own identifier of the record; without one a record sent twice cannot be told"));
            else rows.Add(new SentRow(body.Line, body.Log.Barge, id, body.Log));
        }

        return new SentRows(rows, problems, read.Assumptions, read.RowsRead, read.Problems.Any(problem => problem.WholeFile) || (read.RowsRead == 0 && problems.Count == 0), []);
    }
}

/// <summary>A row that could be read.</summary>
/// <param name="Row">Its place in what was sent.</param>
/// <param name="Barge">Its barge.</param>
/// <param name="RecordId">The sender's identifier.</param>
/// <param name="Value">What it says: an installation or a log; equal where it says the same.</param>
internal sealed record SentRow(long Row, string Barge, string RecordId, object Value);

/// <summary>Which of the rows are new to the site, which it knows, and which contradict what it knows under the same identifier.</summary>
internal sealed record SentDecision(IReadOnlyList<SentRow> Fresh, IReadOnlyList<SentRow> Known, IReadOnlyList<SentRow> Withdrawn, IReadOnlyList<RowProblem> Problems)
{
    public static SentDecision Of(SiteHistory history, SentRows sent)
    {
        HashSet<(string Barge, string Id)> asked = [.. sent.Rows.Select(KeyOf)];
        IEnumerable<(string Barge, string? Id, object Value, bool Counts)> ever = sent.Rows is [{ Value: LoggedPile }, ..]
            ? history.LoggedEver.Select(one => (one.Row.Value.Barge, one.Row.Value.RecordId, (object)one.Row.Value, one.Counts))
            : history.InstalledEver.Select(one => (one.Row.Value.Barge, one.Row.Value.RecordId, (object)one.Row.Value, one.Counts));
        ILookup<(string Barge, string Id), (object Value, bool Counts)> there = ever
            .Where(one => one.Id is { } id && asked.Contains((one.Barge, id)))
            .ToLookup(one => (one.Barge, one.Id!), one => (one.Value, one.Counts));
        List<SentRow> fresh = [], known = [], withdrawn = [];
        List<RowProblem> problems = [.. sent.Problems];
        Dictionary<(string Barge, string Id), SentRow> here = [];
        foreach (SentRow row in sent.Rows)
        {
            if (!here.TryAdd(KeyOf(row), row))
            {
                // Said twice in one message: the first word stands.
                if (here[KeyOf(row)].Value.Equals(row.Value)) known.Add(row);
                else problems.Add(new RowProblem(row.Row, row.RecordId, "Record", row.RecordId, "each record once; this message has the same record with other content"));
                continue;
            }

            (object Value, bool Counts)[] earlier = [.. there[KeyOf(row)]];
            if (earlier.Any(one => one.Counts && one.Value.Equals(row.Value))) known.Add(row);
            else if (earlier.Any(one => one.Counts))
                problems.Add(new RowProblem(row.Row, row.RecordId, "Record", row.RecordId, "each record once; this identifier was recorded before with other content"));
            else if (earlier.Any(one => one.Value.Equals(row.Value))) withdrawn.Add(row);
            else fresh.Add(row);
        }

        return new SentDecision(fresh, known, withdrawn, problems);
    }

    /// <summary>False where recording would say nothing that is not there: all is known, or the very same bytes with the same problems are kept already.</summary>
    public bool SaysAnythingNew(SiteHistory history, string sender, string sha256)
        => Fresh.Count > 0 || (Problems.Count > 0 && !history.Batches.Any(batch => batch.Body.Sender == sender && batch.Body.Sha256 == sha256));

    public SentAnswer Answer(SentRows sent)
    {
        Dictionary<long, SentRowAnswer> rows = [];
        foreach (RowProblem problem in Problems.Where(problem => problem.Row > 0)) rows[problem.Row] = new SentRowAnswer(problem.Row, problem.RecordId, SentRowBecame.NotTaken);
        foreach (long row in sent.SaidTwice) rows[row] = new SentRowAnswer(row, null, SentRowBecame.AlreadyRecorded);
        foreach (SentRow row in Fresh) rows[row.Row] = new SentRowAnswer(row.Row, row.RecordId, SentRowBecame.Recorded);
        foreach (SentRow row in Known) rows[row.Row] = new SentRowAnswer(row.Row, row.RecordId, SentRowBecame.AlreadyRecorded);
        foreach (SentRow row in Withdrawn) rows[row.Row] = new SentRowAnswer(row.Row, row.RecordId, SentRowBecame.AlreadyWithdrawn);
        return new SentAnswer(
            sent.RowsRead, Fresh.Count, Known.Count + Withdrawn.Count + sent.SaidTwice.Count, rows.Values.Count(row => row.Became is SentRowBecame.NotTaken),
            [.. rows.Values.OrderBy(row => row.Row)], Problems, sent.WholeRefused, null);
    }

    private static (string, string) KeyOf(SentRow row) => (row.Barge, row.RecordId);
}
