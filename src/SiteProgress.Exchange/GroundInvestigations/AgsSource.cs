using System.Globalization;
using SiteProgress.Exchange.Sources;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.GroundInvestigations;

/// <summary>An AGS4 file as tables, one a group; every group of a location also has that location's own headings.</summary>
/// <remarks>
/// AGS4 rules 2 to 5: groups of rows GROUP, HEADING, UNIT, TYPE and DATA, each field in quotation marks, quotation marks within
/// doubled, as many fields in a row as its HEADING row has. Rule 10: LOCA_ID is the key of a location.
/// </remarks>
internal sealed class AgsSource : RowSource
{
    /// <summary>The format in words.</summary>
    public const string Format = "AGS4 file";

    private const int MostLocations = 100_000;
    private const int MostGroups = 300;

    private static readonly HashSet<string> PlaceHeadings = ["LOCA_NATE", "LOCA_NATN", "LOCA_LOCX", "LOCA_LOCY"];

    private readonly Stream _stream;
    private readonly long _begin;
    private readonly ReadingChoices _choices;
    private readonly CancellationToken _cancellation;
    private readonly List<Group> _groups = [];
    private readonly Dictionary<string, string[]> _locations = new(StringComparer.Ordinal);
    private Group? _locationGroup;

    /// <param name="stream">The file.</param>
    /// <param name="choices">Group and encoding a person chose.</param>
    /// <param name="cancellation">Ends the reading.</param>
    public AgsSource(Stream stream, ReadingChoices choices, CancellationToken cancellation)
        : base(Format, cancellation)
    {
        (_stream, _begin, _choices, _cancellation) = (stream, stream.Position, choices, cancellation);
        foreach (var _ in Walk(null))
        {
            // The first walk finds the groups and keeps the locations.
        }

        // The tests are what is read of it now, so their group comes first.
        _groups = [.. _groups.OrderBy(group => group.Name != "ISPT")];
        Ways = [.. _groups.Select((group, index) => new TableWay(index, group.Name, '\0'))];
        Refusal = Ways.Count == 0 ? "an AGS4 file with a group of data"
            : choices.Table is { } chosen && Ways.All(way => way.Name != chosen) ? $"an AGS4 file with the group {ImportProblem.Shorten(chosen)}"
            : null;
    }

    public override IReadOnlyList<TableWay> Ways { get; }

    public override string TableWord => "group";

    /// <summary>True where a file begins with a row of a group in quotation marks.</summary>
    /// <param name="head">First bytes.</param>
    public static bool Recognises(ReadOnlySpan<byte> head) => head.TrimStart((ReadOnlySpan<byte>)[0xEF, 0xBB, 0xBF, (byte)' ', (byte)'\r', (byte)'\n']).StartsWith("\"GROUP\","u8);

    public override string Describe(TableWay way) => $"an {Format}, group {way.Name}";

    public override IReadOnlyList<string> Assumptions(TableWay way) =>
    [
        $"Groups not read: {string.Join(", ", Ways.Where(other => other != way).Select(other => other.Name).Take(30))}.",
        "LOCA_NATE and LOCA_NATN are taken as easting and northing, LOCA_LOCX and LOCA_LOCY as the site grid.",
    ];

    protected override IEnumerable<SourceRow> Rows(TableWay way) => Walk(_groups[way.Table]);

    /// <summary>Walks through the file: the rows of one group, its titles first; without a group, what there is.</summary>
    private IEnumerable<SourceRow> Walk(Group? wanted)
    {
        _stream.Position = _begin;
        var records = new SampledText(_stream, _choices.Encoding, _cancellation).SplitAll(',');
        Group? group = null;
        while (records.Next() is var state and not RecordState.End)
        {
            if (state is not RecordState.Good)
                throw At(records.Line, "a row of fields in quotation marks (AGS4 rules 4 and 5)");
            string[] cells = [.. Enumerable.Range(0, records.CellCount).Select(cell => records.Cell(cell).ToString())];
            if (cells is [{ } blank] && string.IsNullOrWhiteSpace(blank))
                continue;
            switch (cells[0])
            {
                case "GROUP":
                    group = Begin(cells, records.Line, wanted is null);
                    break;
                case "HEADING" or "UNIT" or "TYPE" or "DATA" when group is null || (cells[0] != "HEADING" && cells.Length != group.Headings.Length + 1):
                    throw At(records.Line, group is null ? "a GROUP row first (AGS4 rule 3)" : string.Create(CultureInfo.InvariantCulture, $"{group.Headings.Length + 1} fields as in the HEADING row (AGS4 rule 4)"));
                case "HEADING":
                    group!.Headings = cells[1..];
                    break;
                case "UNIT":
                    group!.Units = cells[1..];
                    if (wanted?.Name == group.Name)
                        yield return new SourceRow(records.Line, Titles(wanted));
                    break;
                case "TYPE":
                    break;
                case "DATA" when wanted is null:
                    Keep(group!, cells[1..]);
                    break;
                case "DATA":
                    if (wanted.Name == group!.Name)
                        yield return new SourceRow(records.Line, Joined(wanted, cells[1..]));
                    break;
                default:
                    throw At(records.Line, "a row that begins with GROUP, HEADING, UNIT, TYPE or DATA (AGS4 rule 3)");
            }
        }
    }

    private Group Begin(string[] cells, long line, bool isSurvey)
    {
        if (cells.Length < 2 || cells[1].Length == 0)
            throw At(line, "the name of a group (AGS4 rule 4)");
        if (!isSurvey)
            return new Group { Name = cells[1] };
        var group = new Group { Name = cells[1] };
        if (_groups.Exists(known => known.Name == group.Name))
            throw At(line, $"each group once; {ImportProblem.Shorten(group.Name)} came before");
        _groups.Add(group);
        if (_groups.Count > MostGroups)
            throw At(line, "at most 300 groups");
        if (group.Name == "LOCA")
            _locationGroup = group;
        return group;
    }

    private void Keep(Group group, string[] cells)
    {
        if (group != _locationGroup || Array.IndexOf(group.Headings, "LOCA_ID") is not (var key and >= 0))
            return;
        _locations[cells[key]] = cells;
        if (_locations.Count > MostLocations)
            throw new BrokenFileException("at most 100,000 locations in one AGS4 file");
    }

    private string[] Titles(Group group)
    {
        string[] own = [.. group.Headings.Select((heading, index) => Title(heading, group.Units[index]))];
        return _locationGroup is null || group.Name == "LOCA" || !group.Headings.Contains("LOCA_ID")
            ? own
            : [.. own, .. Beside(group).Select(index => Title(_locationGroup.Headings[index], _locationGroup.Units.ElementAtOrDefault(index) ?? ""))];
    }

    private string?[] Joined(Group group, string[] cells)
    {
        var key = Array.IndexOf(group.Headings, "LOCA_ID");
        if (_locationGroup is null || group.Name == "LOCA" || key < 0)
            return cells;
        var location = _locations.GetValueOrDefault(cells[key]);
        return [.. cells, .. Beside(group).Select(index => location?[index])];
    }

    /// <summary>Headings of the location that stand beside those of a group. A pair of coordinates that no location fills is left out.</summary>
    private IEnumerable<int> Beside(Group group) => Enumerable.Range(0, _locationGroup!.Headings.Length).Where(index =>
        !group.Headings.Contains(_locationGroup.Headings[index])
        && (!PlaceHeadings.Contains(_locationGroup.Headings[index]) || _locations.Values.Any(location => location[index].Length > 0)));

    private string Title(string heading, string unit)
    {
        var title = heading switch
        {
            "LOCA_NATE" => "Easting",
            "LOCA_NATN" => "Northing",
            "LOCA_LOCX" => _choices.GridAxes.First,
            "LOCA_LOCY" => _choices.GridAxes.Second,
            _ => heading,
        };
        return unit.Length == 0 ? title : $"{title} [{unit}]";
    }

    private static BrokenFileException At(long line, string expected)
        => new(string.Create(CultureInfo.InvariantCulture, $"on line {line} {expected}"));

    private sealed class Group
    {
        public required string Name { get; init; }

        public string[] Headings { get; set; } = [];

        public string[] Units { get; set; } = [];
    }
}
