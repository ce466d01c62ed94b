using SiteProgress.Exchange;

namespace SiteProgress.Web.Shell;

/// <summary>A table as a file to download.</summary>
public static class TableAnswer
{
    /// <summary>The kind of the answer.</summary>
    public const string ContentType = "text/csv; charset=utf-8";

    /// <summary>Writes rows as a table.</summary>
    /// <param name="fileName">Name of the file.</param>
    /// <param name="write">Writes the head and the rows.</param>
    /// <param name="rows">The rows.</param>
    public static IResult Of<T>(string fileName, Action<TableWriter, T> write, T rows)
    {
        using MemoryStream bytes = new();
        using (StreamWriter text = new(bytes, TableWriter.Encoding, leaveOpen: true)) write(new TableWriter(text), rows);
        return Results.File(bytes.ToArray(), ContentType, fileName);
    }
}
