namespace SiteProgress.Exchange.Sources;

/// <summary>One way of taking a file as a table: which of its tables, and for a text which delimiter.</summary>
/// <param name="Table">Number of the table within the file, from 0.</param>
/// <param name="Name">Name of the table; null where the file has one table without a name.</param>
/// <param name="Delimiter">Delimiter of a text; zero for other formats.</param>
internal readonly record struct TableWay(int Table, string? Name, char Delimiter);

/// <summary>A file as one or more tables. It is opened once and read as often as needed where its stream can go back.</summary>
internal abstract class TableSource : IDisposable
{
    /// <summary>What was expected instead of this file; null where it can be read.</summary>
    public string? Refusal { get; protected set; }

    /// <summary>Ways of taking the file as a table, the likeliest first.</summary>
    public abstract IReadOnlyList<TableWay> Ways { get; }

    /// <summary>Ways that a person's choice excludes.</summary>
    public virtual IReadOnlyList<TableWay> ExcludedWays => [];

    /// <summary>What one of the tables is called: sheet, layer, group.</summary>
    public virtual string TableWord => "table";

    /// <summary>True for a text, whose lines, delimiters and comments count.</summary>
    public virtual bool IsText => false;

    /// <summary>True where <see cref="All"/> may be called again.</summary>
    public virtual bool CanBeReadAgain => true;

    /// <summary>What the way left open and how it was taken, in sentences.</summary>
    /// <param name="way">The way.</param>
    public virtual IReadOnlyList<string> Assumptions(TableWay way) => [];

    /// <summary>What the file does not say and a person is asked.</summary>
    /// <param name="way">The way.</param>
    public virtual IReadOnlyList<OpenQuestion> Questions(TableWay way) => [];

    /// <summary>What a person must say before the file can be read, as an expectation; null where nothing is needed.</summary>
    /// <param name="way">The way.</param>
    public virtual string? Unanswered(TableWay way) => null;

    /// <summary>The first records.</summary>
    /// <param name="way">The way.</param>
    public abstract IRecords Beginning(TableWay way);

    /// <summary>All records.</summary>
    /// <param name="way">The way.</param>
    public abstract IRecords All(TableWay way);

    /// <summary>How the file is read, in words: format, encoding, delimiter, table.</summary>
    /// <param name="way">The way.</param>
    public abstract string Describe(TableWay way);

    /// <inheritdoc />
    public void Dispose()
    {
        Close();
        GC.SuppressFinalize(this);
    }

    /// <summary>Lets go of what the source holds; the stream stays open.</summary>
    protected virtual void Close()
    {
    }
}
