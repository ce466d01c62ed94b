using System.Text;
using System.Text.Json;
using SiteProgress.Exchange.Sources;

namespace SiteProgress.Exchange.PileLogs;

/// <summary>
/// Reads logs written as JSON (RFC 8259), a column a channel: a list of objects, an object whose one member is that list, or one
/// object. A log says once what is the same in all its samples (record, pileNo, barge, casing); its times are the member <c>time</c>,
/// a list of times, or <c>firstSample</c> with <c>seconds</c> after it; each channel is a list of numbers as long as these, with null where
/// nothing was read. Members are named like the columns of a text table (casingTipLevel or "Casing tip level"), and are read by the same
/// rules: a log of JSON and the same log as a table have the same samples, and so the same hash.
/// </summary>
public static class PileLogJson
{
    private const int MostProblemsALog = 20;

    /// <summary>True where JSON holds logs: its first object has a member that is a list of plain values.</summary>
    /// <param name="utf8">The bytes.</param>
    public static bool Holds(ReadOnlyMemory<byte> utf8) => JsonList.Read(
        utf8,
        list => list is [{ ValueKind: JsonValueKind.Object } first, ..] && first.EnumerateObject().Any(member => IsPlainList(member.Value)),
        _ => false, "log");

    /// <summary>Reads logs. A log with anything wrong in it is not among the rows: half a log would be another log.</summary>
    /// <param name="utf8">The bytes.</param>
    /// <param name="choices">What to read with.</param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <returns>The logs, and every problem, by the place in the list, from 1; a problem of one sample names member and index, from 0.</returns>
    public static TableReading<ReadLog> Read(ReadOnlyMemory<byte> utf8, ReadingChoices choices, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(choices);
        return JsonList.Read(utf8, list => ReadList(list, choices, cancellation), Refused, "log");
    }

    private static TableReading<ReadLog> ReadList(IReadOnlyList<JsonElement> list, ReadingChoices choices, CancellationToken cancellation)
    {
        if (list.Count > choices.MostRows) return Refused(FormattableString.Invariant($"at most {choices.MostRows} logs at once; there are {list.Count}"));
        List<ReadRow<ReadLog>> logs = [];
        List<ImportProblem> problems = [];
        List<string> assumptions = [];
        List<long> leftOut = [];
        for (int index = 0; index < list.Count; index++)
        {
            LogColumnsTable table = new(list[index], index + 1, choices);
            IReadOnlyList<ImportProblem> wrong = table.Problems;
            if (wrong.Count == 0)
            {
                using MemoryStream bytes = new(Encoding.UTF8.GetBytes(table.Text));
                TableReading<ReadLog> reading = PileLogReader.Read(bytes, choices with { Delimiter = ',', DecimalComma = false, Columns = [], FixedValues = [], HeaderLine = null }, cancellation);
                wrong = table.Place(reading);
                if (wrong.Count == 0) logs.Add(new ReadRow<ReadLog>(index + 1, reading.Rows[0].Value));
                assumptions.AddRange(reading.Assumptions.Where(IsNews));
            }

            if (wrong.Count == 0) continue;
            leftOut.Add(index + 1);
            problems.AddRange(wrong.Take(MostProblemsALog));
        }

        return Answer(logs, problems, [.. assumptions.Distinct()], list.Count, leftOut);
    }

    // How the table in between was read says nothing to who sent JSON, whose units are these by definition.
    private static bool IsNews(string assumption)
        => !assumption.StartsWith("No unit", StringComparison.Ordinal) && !assumption.StartsWith("Read as", StringComparison.Ordinal);

    private static bool IsPlainList(JsonElement value)
        => value.ValueKind is JsonValueKind.Array && value.GetArrayLength() > 0 && value.EnumerateArray().All(one => one.ValueKind is not (JsonValueKind.Object or JsonValueKind.Array));

    private static TableReading<ReadLog> Refused(string expected) => Answer([], [new ImportProblem(0, null, null, expected, WholeFile: true)], [], 0, []);

    private static TableReading<ReadLog> Answer(
        List<ReadRow<ReadLog>> rows, List<ImportProblem> problems, List<string> assumptions, int read, List<long> leftOut) => new()
    {
        Rows = rows,
        Problems = problems,
        ProblemCount = problems.Count,
        Warnings = [],
        WarningCount = 0,
        Assumptions = assumptions,
        RowsRead = read,
        LinesLeftOut = leftOut,
    };
}
