using System.Text;
using System.Text.Json;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.Sources;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.Installations;

/// <summary>
/// Reads installations written as JSON (RFC 8259): a list of objects, an object whose one member is that list, or one object. Members
/// are named like the columns of a text table (pileNo or "Pile No"), their numbers are in metres, degrees and cubic metres, and they are
/// read by the same rules: the list is laid out as a table and handed to <see cref="InstallationReader"/>.
/// </summary>
public static class InstallationJson
{
    private const int MostMembers = 100;

    /// <summary>Reads installations.</summary>
    /// <param name="utf8">The bytes.</param>
    /// <param name="choices">What to read with.</param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <returns>As from a table in which the list's first object stands on line 2.</returns>
    public static TableReading<Installation> Read(ReadOnlyMemory<byte> utf8, ReadingChoices choices, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(choices);
        return JsonList.Read(utf8, list => ReadList(list, choices, cancellation), Refused, "installation");
    }

    private static TableReading<Installation> ReadList(IReadOnlyList<JsonElement> list, ReadingChoices choices, CancellationToken cancellation)
    {
        if (list.Count > choices.MostRows) return Refused(FormattableString.Invariant($"at most {choices.MostRows} installations at once; there are {list.Count}"));
        List<ImportProblem> problems = [];
        Dictionary<string, int> columns = Columns(list, choices);
        if (columns.Count > MostMembers) return Refused(FormattableString.Invariant($"at most {MostMembers} different member names; there are {columns.Count}"));
        StringBuilder table = new();
        CellLine.Append(table, columns.Keys);
        for (int index = 0; index < list.Count; index++)
        {
            string[]? cells = Cells(list[index], index + 2, columns, problems);

            // A row that is no row of a table still takes its line, so that the lines below keep their places.
            CellLine.Append(table, cells ?? []);
        }

        using MemoryStream stream = new(Encoding.UTF8.GetBytes(table.ToString()));
        TableReading<Installation> reading = InstallationReader.Read(stream, choices with { Delimiter = ',', DecimalComma = false }, cancellation);
        return reading with
        {
            Problems = [.. problems.Concat(reading.Problems).OrderBy(problem => problem.Line)],
            ProblemCount = problems.Count + reading.ProblemCount,
            LinesLeftOut = [.. problems.Select(problem => problem.Line).Concat(reading.LinesLeftOut).Distinct().Order()],
            Assumptions = [.. reading.Assumptions.Where(sentence => !sentence.StartsWith("No unit", StringComparison.Ordinal))],
            RowsRead = list.Count,
        };
    }

    /// <summary>Member names in the order in which they first appear, and after them what every installation must have.</summary>
    private static Dictionary<string, int> Columns(IReadOnlyList<JsonElement> list, ReadingChoices choices)
    {
        Dictionary<string, int> columns = [];
        foreach (JsonElement one in list.Where(one => one.ValueKind is JsonValueKind.Object))
        {
            foreach (JsonProperty member in one.EnumerateObject())
            {
                if (columns.Count <= MostMembers) columns.TryAdd(member.Name, columns.Count);
            }
        }

        InstallationLayout layout = new(choices.GridAxes);
        foreach (Column required in layout.Columns.Where(column => column.Required || column == layout.Record))
        {
            if (!columns.Keys.Any(name => layout.Find(TableLayout.Normalise(name)) == required)) columns.Add(required.Title, columns.Count);
        }

        return columns;
    }

    private static string[]? Cells(JsonElement one, long line, Dictionary<string, int> columns, List<ImportProblem> problems)
    {
        if (one.ValueKind is not JsonValueKind.Object || !one.EnumerateObject().Any())
        {
            problems.Add(new ImportProblem(line, null, one.GetRawText(), "an object with the members of an installation", WholeFile: false));
            return null;
        }

        string[] cells = new string[columns.Count];
        HashSet<string> seen = [];
        foreach (JsonProperty member in one.EnumerateObject())
        {
            if (!seen.Add(member.Name) || member.Value.ValueKind is JsonValueKind.Object or JsonValueKind.Array)
            {
                problems.Add(new ImportProblem(
                    line, member.Name, member.Value.GetRawText(), seen.Contains(member.Name) && member.Value.ValueKind is not (JsonValueKind.Object or JsonValueKind.Array) ? "each member once" : "a text, a number or null", WholeFile: false));
                return null;
            }

            cells[columns[member.Name]] = member.Value.ValueKind switch
            {
                JsonValueKind.Null => "",
                JsonValueKind.String => member.Value.GetString()!,
                _ => member.Value.GetRawText(),
            };
        }

        if (!Array.TrueForAll(cells, string.IsNullOrWhiteSpace)) return cells;
        problems.Add(new ImportProblem(line, null, one.GetRawText(), "an object with the members of an installation", WholeFile: false));
        return null;
    }

    private static TableReading<Installation> Refused(string expected) => new()
    {
        Rows = [],
        Problems = [new ImportProblem(0, null, null, expected, WholeFile: true)],
        ProblemCount = 1,
        Warnings = [],
        WarningCount = 0,
        Assumptions = [],
        RowsRead = 0,
        LinesLeftOut = [],
    };
}
