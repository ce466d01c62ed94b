using SiteProgress.Exchange;

namespace SiteProgress.Web.Shell;

/// <summary>A table as a file to download: comma-separated text, or a workbook when the address ends in <c>as=xlsx</c>.</summary>
public static class TableAnswer
{
    /// <summary>The kind of the answer.</summary>
    public const string ContentType = "text/csv; charset=utf-8";

    /// <summary>The kind of the answer as a workbook.</summary>
    public const string WorkbookContentType = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

    /// <summary>Writes rows as a table.</summary>
    /// <param name="fileName">Name of the file, ending in .csv.</param>
    /// <param name="write">Writes the head and the rows.</param>
    /// <param name="rows">The rows.</param>
    public static IResult Of<T>(string fileName, Action<TableWriter, T> write, T rows) => new Table(fileName, writer => write(writer, rows));

    /// <summary>True when a request asks for a workbook.</summary>
    public static bool IsWorkbook(HttpContext http)
    {
        ArgumentNullException.ThrowIfNull(http);
        return http.Request.Query["as"] == "xlsx";
    }

    /// <summary>A workbook that was written.</summary>
    /// <param name="workbook">The workbook.</param>
    /// <param name="fileName">Name of the table, ending in .csv.</param>
    public static IResult Workbook(WorkbookWriter workbook, string fileName)
    {
        ArgumentNullException.ThrowIfNull(workbook);
        using MemoryStream bytes = new();
        workbook.Save(bytes);
        return Results.File(bytes.ToArray(), WorkbookContentType, Path.ChangeExtension(fileName, ".xlsx"));
    }

    private sealed class Table(string fileName, Action<TableWriter> write) : IResult
    {
        public Task ExecuteAsync(HttpContext httpContext)
            => (IsWorkbook(httpContext) ? Workbook() : Text()).ExecuteAsync(httpContext);

        private IResult Text()
        {
            using MemoryStream bytes = new();
            using (StreamWriter text = new(bytes, TableWriter.Encoding, leaveOpen: true)) write(new TableWriter(text));
            return Results.File(bytes.ToArray(), ContentType, fileName);
        }

        private IResult Workbook()
        {
            WorkbookWriter workbook = new();
            write(workbook);
            return TableAnswer.Workbook(workbook, fileName);
        }
    }
}
