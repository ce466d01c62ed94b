using NodaTime;

namespace SiteProgress.Exchange.TextTables;

/// <summary>Where a column of a layout stands in a file, and how its numbers are written there.</summary>
internal sealed record ColumnPlace
{
    /// <summary>Number of the cell, from 0; -1 where one value holds for all rows.</summary>
    public required int Cell { get; init; }

    /// <summary>The value that holds for all rows; null where the column stands in the file.</summary>
    public string? Fixed { get; init; }

    /// <summary>Factor from the unit of the file to the unit of the column.</summary>
    public double Factor { get; init; } = 1;

    /// <summary>Unit as the file or a person names it; null where neither does.</summary>
    public string? Unit { get; init; }

    /// <summary>True where the numbers are counted down from a surface.</summary>
    public bool IsDepth { get; init; }

    /// <summary>Datum or surface the title names beside the unit; null where it names none.</summary>
    public string? Datum { get; init; }

    /// <summary>Offset from UTC that the title names for its times; null where it names none.</summary>
    public Offset? TimesAt { get; init; }
}
