using System.Globalization;
using SiteProgress.Core.Piles;

namespace SiteProgress.Exchange.TextTables;

/// <summary>The header line of a file, with the cell in which each column of the layout stands.</summary>
internal sealed class TableHeader
{
    private readonly ColumnPlace?[] _places;
    private readonly (Frame Frame, Column First, Column Second)?[] _positions;
    private readonly List<ImportProblem> _problems = [];
    private readonly List<string> _assumptions = [];
    private readonly List<OpenQuestion> _questions = [];
    private readonly ReadingChoices? _choices;

    /// <param name="layout">Columns the file may have.</param>
    /// <param name="titles">Cells of the header line.</param>
    /// <param name="line">Its line.</param>
    public TableHeader(TableLayout layout, IReadOnlyList<string> titles, long line)
        : this(layout, titles, line, line, null)
    {
    }

    private TableHeader(TableLayout layout, IReadOnlyList<string> titles, long firstLine, long line, ReadingChoices? choices)
    {
        (Layout, Titles, FirstLine, Line, _choices) = (layout, titles, firstLine, line, choices);
        CellCount = titles.Count;
        _places = new ColumnPlace?[layout.Columns.Count];
        _positions = new (Frame, Column, Column)?[layout.Positions.Count];
        Map(titles);
    }

    /// <summary>Columns the file may have.</summary>
    public TableLayout Layout { get; }

    /// <summary>Cells of the header line.</summary>
    public IReadOnlyList<string> Titles { get; }

    /// <summary>First line of the header.</summary>
    public long FirstLine { get; }

    /// <summary>Last line of the header; rows follow it.</summary>
    public long Line { get; }

    /// <summary>Number of cells of the header, and so of every row.</summary>
    public int CellCount { get; private set; }

    /// <summary>Number of columns of the layout that were found.</summary>
    public int Matched => _places.Count(place => place is not null);

    /// <summary>What stands in the way of reading the file.</summary>
    public IReadOnlyList<ImportProblem> Problems => _problems;

    /// <summary>What the header left open and how it was taken.</summary>
    public IReadOnlyList<string> Assumptions => _assumptions;

    /// <summary>What the header does not say.</summary>
    public IReadOnlyList<OpenQuestion> Questions => _questions;

    /// <summary>The header of two lines, the upper of which spans columns: "Touch-down" above "X [m]" and "Y [m]".</summary>
    public static TableHeader? OfTwoLines(TableLayout layout, IReadOnlyList<string> upper, long firstLine, IReadOnlyList<string> lower, long line)
    {
        if (upper.Count(cell => !string.IsNullOrWhiteSpace(cell)) < 2)
            return null;
        var titles = new string[Math.Max(upper.Count, lower.Count)];
        var span = "";
        for (var cell = 0; cell < titles.Length; cell++)
        {
            var above = cell < upper.Count ? upper[cell].Trim() : "";
            var below = cell < lower.Count ? lower[cell].Trim() : "";
            span = above.Length > 0 ? above : span;
            titles[cell] = below.Length == 0 ? above : layout.Find(ColumnTitle.Of(below).Name) is not null ? below : $"{span} {below}".Trim();
        }

        return new TableHeader(layout, titles, firstLine, line, null);
    }

    /// <summary>The same header read with what a person said of its columns.</summary>
    public TableHeader With(ReadingChoices choices) => new(Layout, Titles, FirstLine, Line, choices);

    /// <summary>Where a column stands; null where the file does not have it.</summary>
    public ColumnPlace? PlaceOf(Column column) => _places[column.Index];

    /// <summary>Cell in which a column stands, or -1.</summary>
    public int CellOf(Column column) => _places[column.Index]?.Cell ?? -1;

    /// <summary>Frame and columns of a position, or null where the file has none.</summary>
    public (Frame Frame, Column First, Column Second)? PositionOf(PositionColumns position) => _positions[position.Index];

    /// <summary>Decides the frame of each position and what is missing.</summary>
    /// <param name="frame">Frame a person chose, or null.</param>
    public void Complete(Frame? frame)
    {
        foreach (var position in Layout.Positions)
            DecidePosition(position, frame);
        foreach (var column in Layout.Columns.Where(column => column.Required && PlaceOf(column) is null))
            Refuse(column.Title, null, $"a column \u201C{column.Title}\u201D; the header on line {Line.ToString(CultureInfo.InvariantCulture)} has none");
        JudgeLevels();

        string[] absent = [.. Layout.Columns
            .Where(column => !column.Required && !column.Rare && !column.OfPosition)
            .GroupBy(column => column.Subject)
            .Where(ways => ways.All(column => PlaceOf(column) is null))
            .Select(ways => ways.Key)];
        if (absent.Length > 0)
            _assumptions.Add($"Not in the file, so left empty: {string.Join(", ", absent)}.");
    }

    private void Map(IReadOnlyList<string> titles)
    {
        // Spreadsheets end every line with as many delimiters as the widest line has.
        while (CellCount > 0 && string.IsNullOrWhiteSpace(titles[CellCount - 1]))
            CellCount--;

        var open = new List<int>();
        foreach (var cell in Enumerable.Range(0, CellCount))
        {
            if (_choices?.Columns.FirstOrDefault(choice => choice.Cell == cell) is { Column: var key } choice)
                PlaceChosen(cell, key, choice.Unit);
            else if (Named(titles[cell]) is var (column, unit, isDepth))
                PlaceNamed(column, cell, unit, isDepth);
            else
                open.Add(cell);
        }

        foreach (var cell in open.ToArray())
        {
            if (Layout.Columns.FirstOrDefault(column => PlaceOf(column) is null && column.LooseNames.Contains(ColumnTitle.Of(titles[cell]).Name)) is not { } column)
                continue;
            PlaceNamed(column, cell, ColumnTitle.Of(titles[cell]).Unit, isDepth: false);
            _assumptions.Add($"Column \u201C{ImportProblem.Shorten(titles[cell].Trim())}\u201D is taken as {column.Title}.");
            open.Remove(cell);
        }

        PlaceFixed();
        TellColumns(titles, open);
    }

    private (Column Column, string? Unit, bool IsDepth)? Named(string title)
    {
        var (name, unit) = ColumnTitle.Of(title);
        if (Layout.Find(name) is { } column)
            return (column, unit, false);
        return Layout.FindDepth(name) is { } depth ? (depth, unit, true) : null;
    }

    private void PlaceNamed(Column column, int cell, string? unit, bool isDepth)
    {
        if (PlaceOf(column) is { Cell: var earlier })
        {
            // A person who said what one of two equal columns is has decided between them.
            if (_choices?.Columns.Any(choice => choice.Cell == earlier) != true)
                Refuse(column.Title, Titles[cell], "each column once; this title stands twice in the header");
            return;
        }

        Place(column, cell, unit, isDepth);
    }

    private void PlaceChosen(int cell, string? key, string? unit)
    {
        if (key is null)
            return;
        if (Layout.OfKey(key) is not { } column)
        {
            Refuse(null, key, $"a column of {Layout.Title} as the meaning of column {(cell + 1).ToString(CultureInfo.InvariantCulture)}");
            return;
        }

        if (PlaceOf(column) is { } earlier && _choices!.Columns.Any(choice => choice.Cell == earlier.Cell))
        {
            Refuse(column.Title, Titles[cell], "one column for each meaning; two columns are said to be this one");
            return;
        }

        var (name, written) = ColumnTitle.Of(Titles[cell]);
        Place(column, cell, unit ?? written, column.DepthNames.Contains(name) && !column.Names.Contains(name));
        _assumptions.Add($"Column \u201C{ImportProblem.Shorten(Titles[cell].Trim())}\u201D is {column.Title}, as chosen.");
    }

    private void PlaceFixed()
    {
        foreach (var (key, value) in _choices?.FixedValues ?? [])
        {
            if (Layout.OfKey(key) is not { } column || PlaceOf(column) is not null)
                continue;
            _places[column.Index] = new ColumnPlace { Cell = -1, Fixed = value };
            _assumptions.Add($"{column.Title} is \u201C{ImportProblem.Shorten(value)}\u201D in all rows, as chosen.");
        }
    }

    private void TellColumns(IReadOnlyList<string> titles, List<int> unknown)
    {
        var unused = unknown
            .Concat(_choices?.Columns.Where(choice => choice.Column is null && choice.Cell < CellCount).Select(choice => choice.Cell) ?? [])
            .Where(cell => !string.IsNullOrWhiteSpace(titles[cell])).Distinct().Order().ToArray();
        if (unused.Length > 0)
            _assumptions.Add($"Columns not used: {string.Join(", ", unused.Take(20).Select(cell => $"\u201C{ImportProblem.Shorten(titles[cell].Trim())}\u201D"))}.");
        var asked = unknown.Count(cell => !string.IsNullOrWhiteSpace(titles[cell]));
        if (asked > 0)
            _questions.Add(new OpenQuestion(QuestionKind.Columns, $"{(asked == 1 ? "One column has a title that is" : $"{asked.ToString(CultureInfo.InvariantCulture)} columns have titles that are")} not known here; such columns are not used unless you say what they are."));

        if (Layout.HeadingWithoutNorth is { } heading && PlaceOf(heading) is not null)
        {
            if (_choices?.HeadingNorth is { } north)
                _assumptions.Add($"Headings are counted from {Words(north)}, as chosen.");
            else
                _questions.Add(new OpenQuestion(QuestionKind.North, "The header does not say from which north the heading is counted; headings are kept without one."));
        }

        string[] unitless = [.. Layout.Columns.Where(column => column.Quantity is not null && PlaceOf(column) is { Unit: null, Cell: >= 0 }).Select(column => column.Title)];
        if (unitless.Length == 0)
            return;
        _assumptions.Add($"No unit in the header, so metres, degrees, cubic metres or metres per minute: {string.Join(", ", unitless)}.");
        _questions.Add(new OpenQuestion(QuestionKind.Units, $"The header names no unit for {string.Join(", ", unitless)}."));
    }

    private void Place(Column column, int cell, string? unit, bool isDepth)
    {
        var place = new ColumnPlace { Cell = cell, IsDepth = isDepth };
        if (column.Quantity is { } quantity && unit is not null)
        {
            var (bare, datum) = quantity == Quantity.Level ? ColumnTitle.Datum(unit) : (unit, null);
            if (quantity.FactorFrom(bare) is not { } factor)
            {
                _places[column.Index] = place with { Unit = unit };
                Refuse(column.Title, Titles[cell], $"the unit [{quantity.Unit}]{(quantity.Unit == "m" ? ", [cm], [mm] or [ft]" : "")} in the header");
                return;
            }

            place = place with { Unit = bare, Factor = factor, Datum = datum };
            if (factor != 1)
                _assumptions.Add($"Column {column.Title} converted from {bare} to {quantity.Unit}.");
        }

        _places[column.Index] = place;
    }

    private void JudgeLevels()
    {
        var reading = _choices?.Levels ?? LevelReading.AsWritten;
        var columns = Layout.Columns.Where(column => column.Quantity == Quantity.Level && PlaceOf(column) is not null).ToArray();
        var judged = LevelStatement.Judge(columns.Select(column => (column, PlaceOf(column)!)), reading, _choices?.LevelDatum);
        _problems.AddRange(judged.Problems.Select(problem => problem with { Line = Line }));
        _assumptions.AddRange(judged.Assumptions);
        _questions.AddRange(judged.Questions);
    }

    private void DecidePosition(PositionColumns position, Frame? chosen)
    {
        var present = position.Pairs.Where(pair => CellOf(pair.First) >= 0 && CellOf(pair.Second) >= 0).ToArray();
        foreach (var (_, first, second) in position.Pairs.Where(pair => (CellOf(pair.First) >= 0) != (CellOf(pair.Second) >= 0)))
            Refuse(position.Title, null, $"both columns of a pair; the header has only one of {first.Title} and {second.Title}");

        if (present.Length == 0)
        {
            Absent(position);
            return;
        }

        var taken = chosen is { } frame ? Choose(position, present, frame) : present[0];
        _positions[position.Index] = taken;
        if (taken is { } pair2)
            Tell(position, pair2, present, chosen);
    }

    private void Absent(PositionColumns position)
    {
        var wanted = string.Join(", or ", position.Pairs.Select(pair => $"{pair.First.Title} and {pair.Second.Title}"));
        if (position.Required)
            Refuse(position.Title, null, $"columns {wanted}; the header on line {Line.ToString(CultureInfo.InvariantCulture)} has none of these pairs");
        else
            _assumptions.Add($"Not in the file, so left empty: {position.Title}.");
    }

    private (Frame, Column, Column)? Choose(
        PositionColumns position, (Frame Frame, Column First, Column Second)[] present, Frame frame)
    {
        foreach (var pair in present)
        {
            if (pair.Frame == frame)
                return pair;
        }

        if (frame is Frame.Geographic || present[0].Frame is Frame.Geographic || position.Pairs.All(pair => pair.Frame != frame))
        {
            Refuse(position.Title, null, $"columns in the chosen frame ({Words(frame)}); the header has {present[0].First.Title} and {present[0].Second.Title}");
            return null;
        }

        return (frame, present[0].First, present[0].Second);
    }

    private void Tell(
        PositionColumns position,
        (Frame Frame, Column First, Column Second) taken,
        (Frame Frame, Column First, Column Second)[] present,
        Frame? chosen)
    {
        var why = chosen is null ? "because the header says" : "as chosen; the header says";
        _assumptions.Add(
            $"The {position.Title} is taken as {Words(taken.Frame)}, {why} {taken.First.Title} and {taken.Second.Title}.");
        foreach (var other in present.Where(pair => pair.First != taken.First))
            _assumptions.Add($"Columns {other.First.Title} and {other.Second.Title} are there as well and were not used.");
    }

    private static string Words(Frame frame) => frame switch
    {
        Frame.SiteGrid => "the site grid",
        Frame.ProjectedCrs => "the projected CRS of the site",
        _ => "latitude and longitude",
    };

    private static string Words(North north) => north switch
    {
        North.TrueNorth => "true north",
        North.CrsGrid => "grid north of the projected CRS",
        _ => "the second axis of the site grid",
    };

    private void Refuse(string? column, string? found, string expected)
        => _problems.Add(new ImportProblem(Line, column, found, expected, WholeFile: true));
}
