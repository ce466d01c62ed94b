using System.Buffers;
using System.Globalization;
using NodaTime;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.Sources;

namespace SiteProgress.Exchange.TextTables;

/// <summary>The cells of one row, read as what their columns hold. A cell that cannot be read makes the row bad and says why.</summary>
internal sealed class RowCells
{
    private const int MostPooled = 10_000;

    private static readonly SearchValues<char> SexagesimalMarks = SearchValues.Create(" \u00B0'\"\u2032\u2033:NSEWnsew");

    private readonly IRecords _records;
    private readonly TableHeader _header;
    private readonly LevelReading _levels;
    private readonly bool _decimalComma;
    private readonly DayMonthOrder? _dateOrder;
    private readonly SiteClock _clock;
    private readonly SplitTimes _split;
    private readonly PileNumberRule _numbers;
    private readonly ProblemList _problems;
    private readonly ProblemList _warnings;
    private readonly RemarkShelf _remarks = new();
    private readonly HashSet<string> _pool = [];
    private readonly HashSet<string>.AlternateLookup<ReadOnlySpan<char>> _pooled;

    public RowCells(
        IRecords records, TableHeader header, ReadingChoices choices, Evidence evidence, ProblemList problems, ProblemList warnings)
    {
        _records = records;
        _header = header;
        _levels = choices.Levels;
        _decimalComma = choices.DecimalComma ?? evidence.DecimalComma;
        _dateOrder = choices.DayMonthOrder ?? header.DateOrder ?? evidence.DateOrder;
        _split = new SplitTimes(choices, _dateOrder);
        _clock = new SiteClock(DateTimeZoneProviders.Tzdb[choices.TimesIn ?? choices.TimeZone], choices.Now);
        _numbers = new PileNumberRule(choices.PileNumberCharacters);
        _problems = problems;
        _warnings = warnings;
        _pooled = _pool.GetAlternateLookup<ReadOnlySpan<char>>();
    }

    /// <summary>Line on which the row begins.</summary>
    public long Line => _records.Line;

    /// <summary>True where a cell of the row could not be read.</summary>
    public bool IsBad { get; private set; }

    /// <summary>True where any time had no offset of its own.</summary>
    public bool SawSiteTime { get; private set; }

    /// <summary>How dates in a column of their own were taken.</summary>
    public SplitTimes Split => _split;

    /// <summary>Begins the next row.</summary>
    public void Begin()
    {
        IsBad = false;
        _split.Begin();
    }

    /// <summary>Tells a problem of this row.</summary>
    public void Problem(string? column, ReadOnlySpan<char> found, string expected)
    {
        IsBad = true;
        _problems.Add(Line, column, found, expected);
    }

    /// <summary>Tells something to look at, in a row that is good.</summary>
    public void Warn(string? column, ReadOnlySpan<char> found, string expected) => _warnings.Add(Line, column, found, expected);

    /// <summary>True where a column of the file holds nothing in this row, or the file has no such column.</summary>
    public bool IsBlank(Column column) => Cell(column).IsEmpty;

    /// <summary>Text; null where blank.</summary>
    public string? Text(Column column, int mostCharacters)
    {
        var cell = TextIn(column, mostCharacters);
        return cell.IsEmpty ? null : Pooled(cell);
    }

    /// <summary>Text that may be long and another in every row; null where blank.</summary>
    public Remark? Remark(Column column, int mostCharacters)
    {
        var cell = TextIn(column, mostCharacters);
        return cell.IsEmpty ? null : _remarks.Keep(cell);
    }

    /// <summary>Nothing more is read.</summary>
    public void Close() => _remarks.Close();

    private ReadOnlySpan<char> TextIn(Column column, int mostCharacters)
    {
        var cell = Cell(column);
        if (cell.Length > mostCharacters)
            Problem(column.Title, cell, string.Create(CultureInfo.InvariantCulture, $"at most {mostCharacters} characters"));
        else if (HasStrayCharacter(cell))
            Problem(column.Title, cell, "text in one encoding, without control characters");
        else
            return cell;
        return default;
    }

    /// <summary>A number in the column's unit; null where blank or unreadable.</summary>
    public double? Number(Column column) => Number(column, column.Quantity!);

    /// <summary>A whole number; null where blank or unreadable.</summary>
    public int? Whole(Column column, int least, int most)
    {
        var cell = Cell(column);
        if (cell.IsEmpty)
            return null;
        if (int.TryParse(cell, NumberStyles.None, CultureInfo.InvariantCulture, out var value) && value >= least && value <= most)
            return value;
        Problem(column.Title, cell, string.Create(CultureInfo.InvariantCulture, $"a whole number between {least} and {most}"));
        return null;
    }

    /// <summary>An instant; null where blank or unreadable.</summary>
    public Instant? Time(Column column)
    {
        var cell = Cell(column);
        if (cell.IsEmpty)
            return null;
        var expected = ReadTime(cell, out var written);
        written = written with { Offset = written.Offset ?? _header.PlaceOf(column)!.TimesAt };
        if (expected is null && written.HasSlashes && _dateOrder is null)
            expected = "a choice of day first or month first for dates with slashes, or a date such as 2026-03-10 23:50";
        var instant = default(Instant);
        expected ??= _clock.ToInstant(written, out instant);
        if (expected is not null)
        {
            Problem(column.Title, cell, expected);
            return null;
        }

        SawSiteTime |= written.Offset is null;
        return instant;
    }

    private string? ReadTime(ReadOnlySpan<char> cell, out WrittenTime written)
    {
        if (_header.Layout.DayOfTimes is not { } day || !TimeCell.IsTimeOfDay(cell, out var time))
            return TimeCell.Read(cell, _dateOrder, out written);
        if (!IsBlank(day))
            return _split.Join(Cell(day), time, out written);
        written = default;
        return _header.PlaceOf(day) is null
            ? "a date and time such as 2026-03-10 23:50, or a column \u201CDate\u201D beside times of day"
            : $"a date in column {day.Title} beside this time of day, or a date and time such as 2026-03-10 23:50";
    }

    /// <summary>A position in the frame of the file; null where both cells are blank. Half a position is a problem.</summary>
    public RecordedPosition? Position(PositionColumns position)
    {
        if (_header.PositionOf(position) is not { } columns)
            return null;
        bool noFirst = IsBlank(columns.First), noSecond = IsBlank(columns.Second);
        if (noFirst && noSecond)
            return null;
        if (noFirst || noSecond)
        {
            var (empty, filled) = noFirst ? (columns.First, columns.Second) : (columns.Second, columns.First);
            Problem(empty.Title, "", $"both coordinates or neither; {filled.Title} is filled");
            return null;
        }

        var first = Coordinate(columns.Frame, columns.First);
        var second = Coordinate(columns.Frame, columns.Second);
        return first is { } one && second is { } two ? new RecordedPosition(columns.Frame, one, two) : null;
    }

    /// <summary>A pile number; null where blank or not allowed.</summary>
    public string? PileNumber(Column column)
    {
        var cell = Cell(column);
        if (cell.IsEmpty)
            return null;
        if (_numbers.Judge(cell, out var suspicion) is { } expected)
        {
            Problem(column.Title, cell, expected);
            return null;
        }

        if (suspicion is not null)
            Warn(column.Title, cell, $"a pile number; {suspicion}");
        return cell.ToString();
    }

    /// <summary>One of some known words; null where blank or unknown.</summary>
    /// <param name="column">The column.</param>
    /// <param name="words">Words by their normalised form.</param>
    /// <param name="expected">What was expected, listing the words.</param>
    public T? Word<T>(Column column, IReadOnlyList<(string Word, T Value)> words, string expected)
        where T : struct
    {
        var cell = Cell(column);
        if (cell.IsEmpty)
            return null;
        foreach (var (word, value) in words)
        {
            if (SameWord(cell, word))
                return value;
        }

        Problem(column.Title, cell, expected);
        return null;
    }

    /// <summary>One of the site's own names, in the site's spelling; null where blank or unknown.</summary>
    public string? Known(Column column, IReadOnlyList<string> names, string what)
    {
        var cell = Cell(column);
        if (cell.IsEmpty)
            return null;
        foreach (var name in names)
        {
            if (cell.Equals(name, StringComparison.OrdinalIgnoreCase))
                return name;
        }

        Problem(column.Title, cell, $"{what} of this site: {string.Join(", ", names)}");
        return null;
    }

    /// <summary>Tells that a value is missing, unless the row is bad in that column already.</summary>
    public void Require(Column column, string what)
    {
        if (IsBlank(column))
            Problem(column.Title, "", what);
    }

    /// <summary>One coordinate. Latitude and longitude may stand in degrees, minutes and seconds; a plain number is read as in every other column.</summary>
    private double? Coordinate(Frame frame, Column column)
    {
        var cell = Cell(column);
        if (frame is not Frame.Geographic || cell.Length > 40 || !LooksSexagesimal(cell))
            return Number(column, QuantityOf(frame, column));
        var text = cell.ToString();
        var angle = column.Quantity == Quantity.Latitude ? DegreesMinutesSeconds.ParseLatitude(text) : DegreesMinutesSeconds.ParseLongitude(text);
        if (angle.Degrees is null)
            Problem(column.Title, cell, $"{column.Quantity!.Name}, decimal or in degrees, minutes and seconds such as 55\u00B036'06.2130\"");
        return angle.Degrees;
    }

    private static bool LooksSexagesimal(ReadOnlySpan<char> cell) => cell.IndexOfAny(SexagesimalMarks) >= 0 || cell.LastIndexOf('-') > 0;

    private double? Number(Column column, Quantity quantity)
    {
        var cell = Cell(column);
        if (cell.IsEmpty)
            return null;
        var state = NumberCell.Read(cell, _decimalComma, out var value);
        var place = _header.PlaceOf(column)!;
        var scaled = value * place.Factor;
        if (quantity == Quantity.Level)
            scaled = LevelStatement.ToLevel(scaled, place, _levels);
        if (state is NumberState.Good && scaled >= quantity.Least && scaled <= quantity.Most)
            return scaled;

        var (mark, other) = _decimalComma ? ("comma", "point") : ("point", "comma");
        Problem(column.Title, cell, state switch
        {
            NumberState.Good => quantity.Expected(scaled),
            NumberState.OtherMark => $"a decimal {mark} as in the rest of the file, not a {other}",
            NumberState.Ambiguous => $"a number that reads one way only: its {other} may begin the decimals or part thousands",
            _ => $"a number ({quantity.Name}) in plain digits",
        });
        return null;
    }

    private ReadOnlySpan<char> Cell(Column column)
    {
        if (_header.PlaceOf(column) is not { } place)
            return default;
        if (place.Fixed is { } value)
            return value;
        return place.Cell >= _records.CellCount ? default : _records.Cell(place.Cell).Trim();
    }

    private string Pooled(ReadOnlySpan<char> text)
    {
        if (_pooled.TryGetValue(text, out var known))
            return known;
        var value = text.ToString();
        if (_pool.Count < MostPooled && value.Length <= 400)
            _pool.Add(value);
        return value;
    }

    private static Quantity QuantityOf(Frame frame, Column column) => frame switch
    {
        Frame.SiteGrid => Quantity.SiteCoordinate,
        Frame.ProjectedCrs => Quantity.ProjectedCoordinate,
        _ => column.Quantity!,
    };

    private static bool HasStrayCharacter(ReadOnlySpan<char> text)
    {
        foreach (var character in text)
        {
            if (character == '\uFFFD' || (char.IsControl(character) && character is not ('\n' or '\r' or '\t')))
                return true;
        }

        return false;
    }

    /// <summary>Compares letters only, without regard to case: "RTK-fixed" is "rtk fixed".</summary>
    private static bool SameWord(ReadOnlySpan<char> cell, string word)
    {
        var at = 0;
        foreach (var character in cell)
        {
            if (!char.IsLetterOrDigit(character))
                continue;
            if (at == word.Length || char.ToLowerInvariant(character) != word[at])
                return false;
            at++;
        }

        return at == word.Length;
    }
}
