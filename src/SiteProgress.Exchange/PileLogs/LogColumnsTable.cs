using System.Globalization;
using System.Text;
using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using SiteProgress.Exchange.Sources;
using SiteProgress.Exchange.TextTables;
using SiteProgress.Exchange.Workbooks;

namespace SiteProgress.Exchange.PileLogs;

/// <summary>One log of JSON laid out as a table, a sample a line, and the way back from a line of it to member and index.</summary>
internal sealed class LogColumnsTable
{
    private const string FirstSample = "firstSample", Seconds = "seconds";
    private const double MostSeconds = 864_000;
    private const int MostMembers = 100;

    private static readonly InstantPattern ToTheMillisecond = InstantPattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:ss.fff'Z'");

    private readonly long _place;
    private readonly ReadingChoices _choices;
    private readonly PileLogLayout _layout;
    private readonly List<ImportProblem> _problems = [];
    private readonly Dictionary<string, string> _members = [];
    private readonly HashSet<string> _saidOnce = [];
    private readonly StringBuilder _text = new();

    /// <param name="log">The log.</param>
    /// <param name="place">Its place in the list, from 1.</param>
    /// <param name="choices">What to read with.</param>
    public LogColumnsTable(JsonElement log, long place, ReadingChoices choices)
    {
        (_place, _choices, _layout) = (place, choices, new PileLogLayout(choices.GridAxes));
        if (Members(log) is { } members) Write(members);
    }

    /// <summary>What is wrong with its shape; the table is there only where nothing is.</summary>
    public IReadOnlyList<ImportProblem> Problems => _problems;

    /// <summary>The table.</summary>
    public string Text => _text.ToString();

    /// <summary>Problems of the table, each put to its member and index; one where the table holds no log.</summary>
    public IReadOnlyList<ImportProblem> Place(TableReading<ReadLog> reading)
    {
        List<ImportProblem> placed = [];
        HashSet<string> told = [];
        foreach (ImportProblem problem in reading.Problems)
        {
            string? member = problem.Column is null ? null : _members.GetValueOrDefault(problem.Column, problem.Column);
            bool once = member is null || _saidOnce.Contains(member) || problem.Line < 2;
            if (once && !told.Add(member ?? "")) continue;
            placed.Add(new ImportProblem(_place, once ? member : At(member!, (int)problem.Line - 2), problem.Found, problem.Expected, WholeFile: false));
        }

        if (placed.Count == 0 && reading.Rows.Count != 1)
            placed.Add(new ImportProblem(_place, "casingTipLevel", null, "the casing tip of the samples: casingTipLevel, or casingTipBelowWater with waterLevel", WholeFile: false));
        return placed;
    }

    private static string At(string member, int index) => string.Create(CultureInfo.InvariantCulture, $"{member}[{index}]");

    private List<JsonProperty>? Members(JsonElement log)
    {
        if (log.ValueKind is not JsonValueKind.Object) return Wrong<List<JsonProperty>>(null, log.GetRawText(), "an object with the members of a log");
        List<JsonProperty> members = [];
        HashSet<string> seen = [];
        foreach (JsonProperty member in log.EnumerateObject())
        {
            if (!seen.Add(TableLayout.Normalise(member.Name))) return Wrong<List<JsonProperty>>(member.Name, null, "each member once");
            if (member.Value.ValueKind is JsonValueKind.Object) return Wrong<List<JsonProperty>>(member.Name, member.Value.GetRawText(), "a value, or a list of values, one for each sample");
            members.Add(member);
        }

        return members.Count <= MostMembers ? members : Wrong<List<JsonProperty>>(null, null, $"at most {MostMembers} members");
    }

    private void Write(List<JsonProperty> members)
    {
        if (TwiceMeasured(members) || Times(members) is not { } times) return;
        List<(string Name, string?[] Cells)> columns = [];
        foreach (JsonProperty member in members.Where(member => !IsTime(member.Name)))
        {
            if (Cells(member, times.Length) is { } cells) columns.Add((member.Name, cells));
        }

        if (_problems.Count > 0) return;
        CellLine.Append(_text, columns.Select(column => column.Name).Prepend(_layout.At.Title));
        for (int sample = 0; sample < times.Length; sample++) CellLine.Append(_text, columns.Select(column => column.Cells[sample]).Prepend(times[sample]));
    }

    /// <summary>Tip and sand are each measured one way in a log, which decides how all of it is read.</summary>
    private bool TwiceMeasured(List<JsonProperty> members)
    {
        foreach (Column[] ways in (Column[][])[[_layout.TipLevel, _layout.TipDepth], [_layout.SandHeight, _layout.SandFromTop, _layout.SandLevel]])
        {
            JsonProperty[] said = [.. members.Where(member => ways.Contains(ColumnOf(member.Name)))];
            if (said.Length > 1) Wrong<string>(said[1].Name, null, $"one measure of it; {said[0].Name} is there too");
        }

        return _problems.Count > 0;
    }

    private string?[]? Times(List<JsonProperty> members)
    {
        JsonProperty[] listed = [.. members.Where(member => ColumnOf(member.Name) == _layout.At)];
        JsonProperty[] seconds = [.. members.Where(member => member.Name == Seconds)], first = [.. members.Where(member => member.Name == FirstSample)];
        switch (listed.Length, first.Length, seconds.Length)
        {
            case (1, 0, 0):
                _members[_layout.At.Title] = listed[0].Name;
                return listed[0].Value.ValueKind is JsonValueKind.Array ? Cells(listed[0], listed[0].Value.GetArrayLength()) : Wrong<string?[]>(listed[0].Name, listed[0].Value.GetRawText(), "a list of times, one for each sample");
            case (0, 1, 1):
                _members[_layout.At.Title] = Seconds;
                return After(first[0].Value, seconds[0].Value);
            default:
                return Wrong<string?[]>(null, null, "the times of the samples: time, a list of times, or firstSample and seconds, a list of seconds after it");
        }
    }

    private string?[]? After(JsonElement first, JsonElement seconds)
    {
        WrittenTime written = default;
        Instant start = default;
        string? expected = first.ValueKind is JsonValueKind.String ? TimeCell.Read(first.GetString(), DayMonthOrder.DayFirst, out written) : "a date and time such as 2026-03-10T23:50:00Z";
        if (expected is null && written.HasSlashes) expected = "a date and time such as 2026-03-10T23:50:00Z";
        expected ??= new SiteClock(DateTimeZoneProviders.Tzdb[_choices.TimesIn ?? _choices.TimeZone], _choices.Now).ToInstant(written, out start);
        if (expected is not null) return Wrong<string?[]>(FirstSample, first.ToString(), expected);
        if (seconds.ValueKind is not JsonValueKind.Array) return Wrong<string?[]>(Seconds, seconds.GetRawText(), "a list of seconds after firstSample, one for each sample");
        string?[] times = new string?[seconds.GetArrayLength()];
        int index = 0;
        foreach (JsonElement second in seconds.EnumerateArray())
        {
            if (second.ValueKind is JsonValueKind.Number && second.TryGetDouble(out double after) && Math.Abs(after) <= MostSeconds) times[index] = ToTheMillisecond.Format(start + Duration.FromMilliseconds(Math.Round(after * 1000)));
            else Wrong<string>(At(Seconds, index), second.GetRawText(), "seconds after firstSample, a number of at most ten days");
            index++;
        }

        return _problems.Count == 0 ? times : null;
    }

    private string?[]? Cells(JsonProperty member, int samples)
    {
        Column? column = ColumnOf(member.Name);
        if (column is not null) _members[column.Title] = member.Name;
        if (member.Value.ValueKind is not JsonValueKind.Array)
        {
            _saidOnce.Add(member.Name);
            string?[] same = new string?[samples];
            Array.Fill(same, Cell(member.Value));
            return same;
        }

        bool isOfWholeLog = column == _layout.Record || column == _layout.PileNumber || column == _layout.Barge || column == _layout.Casing;
        if (isOfWholeLog) return Wrong<string?[]>(member.Name, null, "one value for the whole log");
        if (member.Value.GetArrayLength() != samples)
            return Wrong<string?[]>(member.Name, null, string.Create(CultureInfo.InvariantCulture, $"{samples} values, one for each sample; there are {member.Value.GetArrayLength()}"));
        string?[] cells = new string?[samples];
        int index = 0;
        foreach (JsonElement value in member.Value.EnumerateArray())
        {
            if (value.ValueKind is JsonValueKind.Object or JsonValueKind.Array) Wrong<string>(At(member.Name, index), value.GetRawText(), "a number, or null where nothing was read");
            else cells[index] = Cell(value);
            index++;
        }

        return cells;
    }

    private static string? Cell(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.Null => null,
        JsonValueKind.String => value.GetString(),
        JsonValueKind.Number => CellDates.PlainNumber(value.GetRawText()) ?? value.GetRawText(),
        _ => value.GetRawText(),
    };

    private Column? ColumnOf(string member) => _layout.Find(TableLayout.Normalise(member));

    private bool IsTime(string member) => member is FirstSample or Seconds || ColumnOf(member) == _layout.At;

    private T? Wrong<T>(string? member, string? found, string expected)
        where T : class
    {
        _problems.Add(new ImportProblem(_place, member, found, expected, WholeFile: false));
        return null;
    }
}
