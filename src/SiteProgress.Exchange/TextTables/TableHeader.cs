using SiteProgress.Core.Piles;

namespace SiteProgress.Exchange.TextTables;

/// <summary>The header line of a file, with the cell in which each column of the layout stands.</summary>
internal sealed class TableHeader
{
    private readonly int[] _cells;
    private readonly double[] _factors;
    private readonly (Frame Frame, Column First, Column Second)?[] _positions;
    private readonly List<ImportProblem> _problems = [];
    private readonly List<string> _assumptions = [];

    /// <param name="layout">Columns the file may have.</param>
    /// <param name="titles">Cells of the header line.</param>
    /// <param name="line">Its line.</param>
    public TableHeader(TableLayout layout, IReadOnlyList<string> titles, long line)
    {
        Layout = layout;
        Line = line;
        CellCount = titles.Count;
        _cells = new int[layout.Columns.Count];
        _factors = new double[layout.Columns.Count];
        _positions = new (Frame, Column, Column)?[layout.Positions.Count];
        Array.Fill(_cells, -1);
        Map(titles);
    }

    /// <summary>Columns the file may have.</summary>
    public TableLayout Layout { get; }

    /// <summary>Line of the header.</summary>
    public long Line { get; }

    /// <summary>Number of cells of the header, and so of every row.</summary>
    public int CellCount { get; private set; }

    /// <summary>Number of columns of the layout that were found.</summary>
    public int Matched => _cells.Count(cell => cell >= 0);

    /// <summary>What stands in the way of reading the file.</summary>
    public IReadOnlyList<ImportProblem> Problems => _problems;

    /// <summary>What the header left open and how it was taken.</summary>
    public IReadOnlyList<string> Assumptions => _assumptions;

    /// <summary>Cell in which a column stands, or -1.</summary>
    public int CellOf(Column column) => _cells[column.Index];

    /// <summary>Factor from the unit of the header to the unit of the column.</summary>
    public double FactorOf(Column column) => _factors[column.Index];

    /// <summary>Frame and columns of a position, or null where the file has none.</summary>
    public (Frame Frame, Column First, Column Second)? PositionOf(PositionColumns position) => _positions[position.Index];

    /// <summary>Splits a header cell into its words and its unit.</summary>
    /// <param name="title">The cell.</param>
    /// <returns>Normalised words, and the unit in brackets where one is written.</returns>
    public static (string Name, string? Unit) Split(string title)
    {
        var text = title.Trim();
        var open = text.LastIndexOfAny(['[', '(']);
        return open >= 0 && text.Length > open + 1 && text[^1] is ']' or ')'
            ? (TableLayout.Normalise(text[..open]), text[(open + 1)..^1])
            : (TableLayout.Normalise(text), null);
    }

    /// <summary>Decides the frame of each position and what is missing.</summary>
    /// <param name="frame">Frame a person chose, or null.</param>
    public void Complete(Frame? frame)
    {
        foreach (var position in Layout.Positions)
            DecidePosition(position, frame);
        foreach (var column in Layout.Columns.Where(column => column.Required && CellOf(column) < 0))
            Refuse(column.Title, null, $"a column \u201C{column.Title}\u201D; the header on line {Line} has none");

        string[] absent = [.. Layout.Columns
            .Where(column => !column.Required && !column.OfPosition)
            .GroupBy(column => column.Subject)
            .Where(ways => ways.All(column => CellOf(column) < 0))
            .Select(ways => ways.Key)];
        if (absent.Length > 0)
            _assumptions.Add($"Not in the file, so left empty: {string.Join(", ", absent)}.");
    }

    private void Map(IReadOnlyList<string> titles)
    {
        // Spreadsheets end every line with as many delimiters as the widest line has.
        while (CellCount > 0 && string.IsNullOrWhiteSpace(titles[CellCount - 1]))
            CellCount--;

        List<string> unknown = [], unitless = [];
        for (var cell = 0; cell < CellCount; cell++)
        {
            var (name, unit) = Split(titles[cell]);
            if (Layout.Find(name) is not { } column)
                unknown.Add(ImportProblem.Shorten(titles[cell].Trim()));
            else if (_cells[column.Index] >= 0)
                Refuse(column.Title, titles[cell], "each column once; this title stands twice in the header");
            else
                Place(column, cell, titles[cell], unit, unitless);
        }

        if (unknown.Count > 0)
            _assumptions.Add($"Columns not used: {string.Join(", ", unknown.Take(20).Select(title => $"\u201C{title}\u201D"))}.");
        if (unitless.Count > 0)
            _assumptions.Add($"No unit in the header, so metres, degrees, cubic metres or metres per minute: {string.Join(", ", unitless)}.");
    }

    private void Place(Column column, int cell, string title, string? unit, List<string> unitless)
    {
        _cells[column.Index] = cell;
        _factors[column.Index] = 1;
        if (column.Quantity is not { } quantity)
            return;
        if (unit is null)
        {
            unitless.Add(column.Title);
            return;
        }

        if (quantity.FactorFrom(unit) is not { } factor)
        {
            Refuse(column.Title, title, $"the unit [{quantity.Unit}]{(quantity.Unit == "m" ? ", [cm] or [mm]" : "")} in the header");
            return;
        }

        _factors[column.Index] = factor;
        if (factor != 1)
            _assumptions.Add($"Column {column.Title} converted from {unit} to {quantity.Unit}.");
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
            Refuse(position.Title, null, $"columns {wanted}; the header on line {Line} has none of these pairs");
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

    private void Refuse(string column, string? found, string expected)
        => _problems.Add(new ImportProblem(Line, column, found, expected, WholeFile: true));
}
