using System.Globalization;
using SiteProgress.Core.Piles;

namespace SiteProgress.Exchange.TextTables;

/// <summary>The header line of a file, with the cell in which each column of the layout stands.</summary>
internal sealed class TableHeader
{
    private readonly ColumnMapping _mapping;
    private readonly (Frame Frame, Column First, Column Second)?[] _positions;
    private readonly List<ImportProblem> _problems;
    private readonly List<string> _assumptions;
    private readonly List<OpenQuestion> _questions;
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
        _mapping = new ColumnMapping(layout, titles, line, choices);
        _positions = new (Frame, Column, Column)?[layout.Positions.Count];
        (_problems, _assumptions, _questions) = ([.. _mapping.Problems], [.. _mapping.Assumptions], [.. _mapping.Questions]);
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
    public int CellCount => _mapping.CellCount;

    /// <summary>Number of columns of the layout that were found.</summary>
    public int Matched => _mapping.Matched;

    /// <summary>True where the header is two lines, the lower of which holds units.</summary>
    public bool HasLineOfUnits { get; private init; }

    /// <summary>Order of day and month that a title names; null where none does.</summary>
    public DayMonthOrder? DateOrder => _mapping.DateOrder;

    /// <summary>True where the title of a cell may mean something else than it was taken for.</summary>
    public bool IsInDoubt(int cell) => _mapping.IsInDoubt(cell);

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

    /// <summary>The header whose units stand in a line of their own: "X", "Y" above "[m]", "[m]"; null where the lower line holds anything else.</summary>
    public static TableHeader? OfUnitsBelow(TableLayout layout, IReadOnlyList<string> upper, long firstLine, IReadOnlyList<string> lower, long line)
    {
        string[] units = [.. lower.Select(cell => cell.Trim().Trim('[', ']', '(', ')'))];
        if (!Array.Exists(units, unit => unit.Length > 0) || !Array.TrueForAll(units, unit => unit is "" or "-" || IsUnit(unit)))
            return null;
        string[] titles = [.. upper.Select((title, cell) => cell < units.Length && units[cell] is { Length: > 0 } unit and not "-" ? $"{title.Trim()} [{unit}]" : title)];
        return new TableHeader(layout, titles, firstLine, line, null) { HasLineOfUnits = true };
    }

    private static bool IsUnit(string text)
        => new[] { Quantity.Level, Quantity.Volume, Quantity.Heading, Quantity.Rate, Quantity.Age }.Any(quantity => quantity.FactorFrom(LevelUnit.Of(text).Unit) is not null)
            || WrittenZone.Of(text).IsKnown;

    /// <summary>The same header read with what a person said of its columns.</summary>
    public TableHeader With(ReadingChoices choices) => new(Layout, Titles, FirstLine, Line, choices) { HasLineOfUnits = HasLineOfUnits };

    /// <summary>Where a column stands; null where the file does not have it.</summary>
    public ColumnPlace? PlaceOf(Column column) => _mapping.PlaceOf(column);

    /// <summary>Cell in which a column stands, or -1.</summary>
    public int CellOf(Column column) => PlaceOf(column)?.Cell ?? -1;

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
            Refuse(position.Title, null, $"columns in the chosen frame ({PositionWords.Of(frame)}); the header has {present[0].First.Title} and {present[0].Second.Title}");
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
            $"The {position.Title} is taken as {PositionWords.Of(taken.Frame)}, {why} {taken.First.Title} and {taken.Second.Title}.");
        foreach (var other in present.Where(pair => pair.First != taken.First))
            _assumptions.Add($"Columns {other.First.Title} and {other.Second.Title} are there as well and were not used.");
    }

    private void Refuse(string? column, string? found, string expected)
        => _problems.Add(new ImportProblem(Line, column, found, expected, WholeFile: true));
}
