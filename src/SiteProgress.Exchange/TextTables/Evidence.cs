using System.Globalization;
using SiteProgress.Exchange.Sources;

namespace SiteProgress.Exchange.TextTables;

/// <summary>What the cells of a file say about its decimal mark and the order of its dates.</summary>
internal sealed class Evidence
{
    private int _points;
    private int _commas;
    private int _maybePoints;
    private int _maybeCommas;
    private long _dayFirstLine;
    private long _monthFirstLine;
    private long _undecidedLine;

    /// <summary>True where dates with slashes were met and none proves their order.</summary>
    public bool NeedsDateOrder => _undecidedLine > 0 && _dayFirstLine == 0 && _monthFirstLine == 0;

    /// <summary>True where the numbers leave the decimal mark open.</summary>
    public bool NeedsMark => _points == 0 && _commas == 0 && _maybePoints + _maybeCommas > 0;

    /// <summary>True where dates prove both orders.</summary>
    public bool DatesContradict => _dayFirstLine > 0 && _monthFirstLine > 0;

    /// <summary>True where any date has slashes.</summary>
    public bool HasSlashDates => _dayFirstLine + _monthFirstLine + _undecidedLine > 0;

    /// <summary>Order of dates with slashes that the dates prove, or null.</summary>
    public DayMonthOrder? DateOrder => (_dayFirstLine > 0, _monthFirstLine > 0) switch
    {
        (true, false) => DayMonthOrder.DayFirst,
        (false, true) => DayMonthOrder.MonthFirst,
        _ => null,
    };

    /// <summary>Lines that prove one and the other order of day and month.</summary>
    public string ContradictingLines
        => string.Create(CultureInfo.InvariantCulture, $"line {_dayFirstLine} has the day first, line {_monthFirstLine} the month");

    /// <summary>True where the numbers speak for a decimal comma.</summary>
    public bool DecimalComma => _points + _commas > 0
        ? _commas > _points
        : _maybeCommas > 0 && _maybePoints == 0;

    /// <summary>How the decimal mark was decided, as a sentence; null where no number has a mark.</summary>
    public string? MarkSentence
    {
        get
        {
            var word = DecimalComma ? "decimal comma" : "decimal point";
            if (_points > 0 && _commas > 0)
                return string.Create(CultureInfo.InvariantCulture, $"Numbers are written in two ways among the first rows: {_points} with a decimal point, {_commas} with a decimal comma; read with the {word}, the others are problems.");
            if (_points + _commas > 0)
                return null;
            return _maybeCommas > 0
                ? $"No number shows whether its comma begins the decimals or parts thousands; read with the {word}."
                : null;
        }
    }

    /// <summary>Looks at the rows below the header.</summary>
    /// <param name="records">Records from the beginning of the table.</param>
    /// <param name="header">Header of the file.</param>
    public void Gather(IRecords records, TableHeader header)
    {
        int[] numbers = [.. header.Layout.Columns.Where(column => column.Quantity is not null && header.CellOf(column) >= 0).Select(header.CellOf)];
        int[] times = [.. header.Layout.Columns.Where(column => (column.IsTime || column.IsDay) && header.CellOf(column) >= 0).Select(header.CellOf)];
        while (records.Next() is var state and not (RecordState.End or RecordState.Broken))
        {
            if (state is not RecordState.Good || records.Line <= header.Line || (records.CellCount < header.CellCount && !records.MayBeShort))
                continue;
            foreach (var cell in numbers)
            {
                if (cell < records.CellCount)
                    Add(NumberCell.Evidence(records.Cell(cell)));
            }

            foreach (var cell in times)
            {
                if (cell < records.CellCount)
                    Add(records.Cell(cell), records.Line);
            }
        }
    }

    private void Add(MarkEvidence evidence)
    {
        _points += evidence is MarkEvidence.Point ? 1 : 0;
        _commas += evidence is MarkEvidence.Comma ? 1 : 0;
        _maybePoints += evidence is MarkEvidence.PointOrThousands ? 1 : 0;
        _maybeCommas += evidence is MarkEvidence.CommaOrThousands ? 1 : 0;
    }

    private void Add(ReadOnlySpan<char> cell, long line)
    {
        // 03/25/2026 is no date with the day first: only the other order can say what it is.
        if (!cell.Contains('/') || (!Reads(cell, null, out var time) && !Reads(cell, DayMonthOrder.MonthFirst, out time)) || !time.HasSlashes)
            return;

        _undecidedLine = line;
        if (time.Order is DayMonthOrder.DayFirst && _dayFirstLine == 0)
            _dayFirstLine = line;
        if (time.Order is DayMonthOrder.MonthFirst && _monthFirstLine == 0)
            _monthFirstLine = line;
    }

    private static bool Reads(ReadOnlySpan<char> cell, DayMonthOrder? order, out WrittenTime time)
        => TimeCell.Read(cell, order, out time) is null || TimeCell.ReadDay(cell, order, out time) is null;
}
