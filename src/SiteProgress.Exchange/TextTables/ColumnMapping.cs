using System.Globalization;
using SiteProgress.Core.Piles;

namespace SiteProgress.Exchange.TextTables;

/// <summary>Which cell of a row holds which column of a layout, and why: what the titles mean, and what a person said of them.</summary>
internal sealed class ColumnMapping
{
    private readonly TableLayout _layout;
    private readonly IReadOnlyList<string> _titles;
    private readonly long _line;
    private readonly ReadingChoices? _choices;
    private readonly ColumnPlace?[] _places;
    private readonly HashSet<int> _inDoubt = [];
    private readonly List<ImportProblem> _problems = [];
    private readonly List<string> _assumptions = [];
    private readonly List<OpenQuestion> _questions = [];

    /// <param name="layout">Columns the file may have.</param>
    /// <param name="titles">Cells of the header line.</param>
    /// <param name="line">Its line.</param>
    /// <param name="choices">What a person said of the columns; null for nothing.</param>
    public ColumnMapping(TableLayout layout, IReadOnlyList<string> titles, long line, ReadingChoices? choices)
    {
        (_layout, _titles, _line, _choices) = (layout, titles, line, choices);
        _places = new ColumnPlace?[layout.Columns.Count];
        // Spreadsheets end every line with as many delimiters as the widest line has.
        CellCount = titles.Count;
        while (CellCount > 0 && string.IsNullOrWhiteSpace(titles[CellCount - 1]))
            CellCount--;
        Map();
    }

    /// <summary>Number of cells up to the last title that is not blank.</summary>
    public int CellCount { get; }

    /// <summary>Number of columns of the layout that were found.</summary>
    public int Matched => _places.Count(place => place is not null);

    /// <summary>What stands in the way of reading the file.</summary>
    public IReadOnlyList<ImportProblem> Problems => _problems;

    /// <summary>What the titles left open and how it was taken.</summary>
    public IReadOnlyList<string> Assumptions => _assumptions;

    /// <summary>What the titles do not say.</summary>
    public IReadOnlyList<OpenQuestion> Questions => _questions;

    /// <summary>Order of day and month that a title names; null where none does.</summary>
    public DayMonthOrder? DateOrder { get; private set; }

    /// <summary>Where a column stands; null where the file does not have it.</summary>
    public ColumnPlace? PlaceOf(Column column) => _places[column.Index];

    /// <summary>True where the title of a cell may mean something else than it was taken for.</summary>
    public bool IsInDoubt(int cell) => _inDoubt.Contains(cell);

    private void Map()
    {
        var open = new List<int>();
        // A column's own title goes before any other spelling of it.
        foreach (var cell in Enumerable.Range(0, CellCount).OrderBy(cell => IsOwnTitle(cell) ? 0 : 1))
        {
            if (_choices?.Columns.FirstOrDefault(choice => choice.Cell == cell) is { Column: var key } choice)
                PlaceChosen(cell, key, choice.Unit);
            else if (TitleMeaning.Sure(_layout, _titles[cell]) is not { } meaning || !PlaceNamed(meaning, cell))
                open.Add(cell);
        }

        open.Sort();
        open.RemoveAll(PlaceDoubtful);
        open.RemoveAll(PlaceLoose);
        PlaceFixed();
        TellUnknown(open);
        TellNorth();
        TellUnits();
    }

    private bool IsOwnTitle(int cell) => _layout.OfKey(ColumnTitle.Of(_titles[cell]).Name) is not null;

    /// <returns>False where the title gives way to the column's own title, and so means nothing.</returns>
    private bool PlaceNamed(TitleMeaning meaning, int cell)
    {
        if (PlaceOf(meaning.Column) is not { Cell: var earlier })
        {
            Place(meaning.Column, cell, meaning.Unit, meaning.IsDepth);
            return true;
        }

        // A person who said what one of two equal columns is has decided between them.
        if (_choices?.Columns.Any(choice => choice.Cell == earlier) == true)
            return true;
        if (IsOwnTitle(earlier) && !IsOwnTitle(cell))
            return false;
        Refuse(meaning.Column.Title, _titles[cell], TableLayout.Normalise(_titles[earlier]) == TableLayout.Normalise(_titles[cell])
            ? "each column once; this title stands twice in the header"
            : $"one column of {meaning.Column.Title}; \u201C{Written(earlier)}\u201D may be it as well, so say what these two columns are");
        return true;
    }

    private bool PlaceDoubtful(int cell)
    {
        if (TitleMeaning.InDoubt(_layout, _titles[cell]) is not { } meaning || PlaceOf(meaning.Column) is not null)
            return false;
        Place(meaning.Column, cell, meaning.Unit, meaning.IsDepth);
        if (meaning.Doubt is { } doubt)
        {
            _inDoubt.Add(cell);
            _assumptions.Add($"Column \u201C{Written(cell)}\u201D is taken as {meaning.Column.Title}.");
            _questions.Add(new OpenQuestion(QuestionKind.Columns, $"\u201C{Written(cell)}\u201D {doubt}"));
        }

        return true;
    }

    private bool PlaceLoose(int cell)
    {
        if (TitleMeaning.Loose(_layout, _titles[cell], column => PlaceOf(column) is null) is not { } meaning)
            return false;
        Place(meaning.Column, cell, meaning.Unit, isDepth: false);
        _assumptions.Add($"Column \u201C{Written(cell)}\u201D is taken as {meaning.Column.Title}.");
        return true;
    }

    private void PlaceChosen(int cell, string? key, string? unit)
    {
        if (key is null)
            return;
        if (_layout.OfKey(key) is not { } column)
        {
            Refuse(null, key, $"a column of {_layout.Title} as the meaning of column {(cell + 1).ToString(CultureInfo.InvariantCulture)}");
            return;
        }

        if (PlaceOf(column) is { } earlier && _choices!.Columns.Any(choice => choice.Cell == earlier.Cell))
        {
            Refuse(column.Title, _titles[cell], "one column for each meaning; two columns are said to be this one");
            return;
        }

        var meaning = TitleMeaning.Sure(_layout, _titles[cell]);
        Place(column, cell, unit ?? UnitFor(column, cell), meaning is { IsDepth: true } && meaning.Column == column);
        _assumptions.Add($"Column \u201C{Written(cell)}\u201D is {column.Title}, as chosen.");
    }

    /// <summary>The unit a title names, where it can be one of the column that a person chose.</summary>
    private string? UnitFor(Column column, int cell)
    {
        var written = ColumnTitle.Of(_titles[cell]).Unit;
        if (written is null || column.Quantity is not { } quantity)
            return written;
        // Whoever says that "Tip [m below water]" is a level has settled what it is counted from.
        return quantity.Unit == "m" && quantity != Quantity.Level ? LevelUnit.Of(written).Unit : written;
    }

    private void PlaceFixed()
    {
        foreach (var (key, value) in _choices?.FixedValues ?? [])
        {
            if (_layout.OfKey(key) is not { } column || PlaceOf(column) is not null)
                continue;
            _places[column.Index] = new ColumnPlace { Cell = -1, Fixed = value };
            _assumptions.Add($"{column.Title} is \u201C{ImportProblem.Shorten(value)}\u201D in all rows, as chosen.");
        }
    }

    private void Place(Column column, int cell, string? unit, bool isDepth)
    {
        var place = new ColumnPlace { Cell = cell, IsDepth = isDepth };
        _places[column.Index] = unit is null ? place
            : column.Quantity is { } quantity ? Measured(column, quantity, place, unit)
            : column.IsTime || column.IsDay ? Timed(column, place, unit)
            : place;
    }

    private ColumnPlace Measured(Column column, Quantity quantity, ColumnPlace place, string unit)
    {
        var parted = quantity == Quantity.Level || quantity == Quantity.Depth ? LevelUnit.Of(unit) : new LevelUnit(unit, null, null);
        if (quantity.FactorFrom(parted.Unit) is not { } factor)
        {
            Refuse(column.Title, _titles[place.Cell], $"the unit [{quantity.Unit}]{(quantity.Unit == "m" ? ", [cm], [mm] or [ft]" : "")} in the header");
            return place with { Unit = unit };
        }

        if (factor != 1)
            _assumptions.Add($"Column {column.Title} converted from {parted.Unit} to {quantity.Unit}.");
        return place with
        {
            Unit = parted.Unit,
            Factor = factor,
            Datum = quantity == Quantity.Level ? parted.Above ?? parted.Below : null,
            IsDepth = place.IsDepth || (quantity == Quantity.Level && parted.Below is not null),
        };
    }

    private ColumnPlace Timed(Column column, ColumnPlace place, string words)
    {
        var zone = WrittenZone.Of(words);
        if (!zone.IsKnown)
        {
            _questions.Add(new OpenQuestion(QuestionKind.TimeZone, $"\u201C{Written(place.Cell)}\u201D names what is not known here as a time zone; its times are taken like those without one."));
            return place;
        }

        if (zone.Order is { } order)
        {
            DateOrder ??= order;
            _assumptions.Add($"Dates with slashes have the {(order is DayMonthOrder.DayFirst ? "day" : "month")} first, as the title of {column.Title} says.");
        }

        if (zone.Offset is { } offset)
            _assumptions.Add($"Times of {column.Title} are {(offset == NodaTime.Offset.Zero ? "UTC" : $"UTC{offset.ToString("+HH:mm", CultureInfo.InvariantCulture)}")}, as the title says.");
        return place with { TimesAt = zone.Offset };
    }

    private void TellUnknown(List<int> unknown)
    {
        var unused = unknown
            .Concat(_choices?.Columns.Where(choice => choice.Column is null && choice.Cell < CellCount).Select(choice => choice.Cell) ?? [])
            .Where(cell => !string.IsNullOrWhiteSpace(_titles[cell])).Distinct().Order().ToArray();
        if (unused.Length > 0)
            _assumptions.Add($"Columns not used: {string.Join(", ", unused.Take(20).Select(cell => $"\u201C{Written(cell)}\u201D"))}.");
        var asked = unknown.Count(cell => !string.IsNullOrWhiteSpace(_titles[cell]));
        if (asked > 0)
            _questions.Add(new OpenQuestion(QuestionKind.Columns, $"{(asked == 1 ? "One column has a title that is" : $"{asked.ToString(CultureInfo.InvariantCulture)} columns have titles that are")} not known here; such columns are not used unless you say what they are."));
    }

    private void TellNorth()
    {
        if (_layout.HeadingWithoutNorth is not { } heading || PlaceOf(heading) is null)
            return;
        if (_choices?.HeadingNorth is { } north)
            _assumptions.Add($"Headings are counted from {PositionWords.Of(north)}, as chosen.");
        else
            _questions.Add(new OpenQuestion(QuestionKind.North, "The header does not say from which north the heading is counted; headings are kept without one."));
    }

    private void TellUnits()
    {
        string[] unitless = [.. _layout.Columns.Where(column => column.Quantity is not null && PlaceOf(column) is { Unit: null, Cell: >= 0 }).Select(column => column.Title)];
        if (unitless.Length == 0)
            return;
        _assumptions.Add($"No unit in the header, so metres, degrees, cubic metres or metres per minute: {string.Join(", ", unitless)}.");
        _questions.Add(new OpenQuestion(QuestionKind.Units, $"The header names no unit for {string.Join(", ", unitless)}."));
    }

    private string Written(int cell) => ImportProblem.Shorten(_titles[cell].Trim());

    private void Refuse(string? column, string? found, string expected)
        => _problems.Add(new ImportProblem(_line, column, found, expected, WholeFile: true));
}
