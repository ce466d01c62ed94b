namespace SiteProgress.Exchange;

/// <summary>The header of a file as it was read: what a person needs to see which column was taken for what.</summary>
public sealed record HeaderReading
{
    /// <summary>Line of the header, from 1; 0 where the format names its columns itself.</summary>
    public required long Line { get; init; }

    /// <summary>Name of the table that was read; null where the file has one without a name.</summary>
    public required string? Table { get; init; }

    /// <summary>Names of all tables of the file.</summary>
    public required IReadOnlyList<string> Tables { get; init; }

    /// <summary>What a table is called: sheet, layer, group.</summary>
    public required string TableWord { get; init; }

    /// <summary>Delimiter of a text; null for other formats.</summary>
    public required char? Delimiter { get; init; }

    /// <summary>Columns of the file.</summary>
    public required IReadOnlyList<FileColumn> Columns { get; init; }

    /// <summary>Columns that a file of this kind may have.</summary>
    public required IReadOnlyList<WantedColumn> Wanted { get; init; }

    /// <summary>Shape of the header: its titles in order, as 32 hexadecimal digits. Files of one sender usually share it.</summary>
    public required string Shape { get; init; }
}

/// <summary>One column of a file.</summary>
/// <param name="Cell">Its number, from 0.</param>
/// <param name="Title">Its title as written.</param>
/// <param name="Meaning">Key of what it was taken for; null where it is not used.</param>
/// <param name="Unit">Unit it was read in; null where it has none.</param>
/// <param name="UnitStated">True where the file or a person names the unit.</param>
/// <param name="FirstValues">Its first values as written, shortened.</param>
/// <param name="InDoubt">True where its title may mean something else than it was taken for.</param>
public sealed record FileColumn(int Cell, string Title, string? Meaning, string? Unit, bool UnitStated, IReadOnlyList<string> FirstValues, bool InDoubt = false);

/// <summary>A column that a kind of file may have.</summary>
/// <param name="Key">The title as addresses and remembered choices write it.</param>
/// <param name="Title">The title.</param>
/// <param name="Required">True where the file cannot be used without it.</param>
/// <param name="MayBeFixed">True where one value may hold for all rows.</param>
/// <param name="Units">Units it may be written in; empty for text and times.</param>
/// <param name="IsPresent">True where the file has it.</param>
public sealed record WantedColumn(string Key, string Title, bool Required, bool MayBeFixed, IReadOnlyList<string> Units, bool IsPresent);
