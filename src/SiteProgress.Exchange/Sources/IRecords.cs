using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.Sources;

/// <summary>The records of one table, one after the other, whatever the format of the file.</summary>
internal interface IRecords
{
    /// <summary>Line on which the record begins, counted from 1: of a text, or the row or place of another format.</summary>
    long Line { get; }

    /// <summary>Number of cells of the record.</summary>
    int CellCount { get; }

    /// <summary>True where the record is the last of a text and no line end follows it.</summary>
    bool EndsWithoutLineEnd { get; }

    /// <summary>First characters of a broken record, for the message.</summary>
    string Beginning { get; }

    /// <summary>True where the first cell cannot begin a comment.</summary>
    bool FirstCellQuoted { get; }

    /// <summary>True where empty cells at the end of a record need not be written.</summary>
    bool MayBeShort { get; }

    /// <summary>What was expected where the file cannot be read on; null otherwise.</summary>
    string? Broken { get; }

    /// <summary>One cell.</summary>
    /// <param name="index">Number of the cell, from 0, below the number of cells.</param>
    ReadOnlySpan<char> Cell(int index);

    /// <summary>Goes to the next record.</summary>
    /// <returns>What was met.</returns>
    RecordState Next();
}
