using System.IO.Compression;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Shouldly;
using Xunit;

namespace SiteProgress.Browser.Tests.MainJob;

/// <summary>Every table that can be taken away as comma-separated text can be taken away as a workbook too.</summary>
[Collection(ServedSites.Collection)]
public sealed partial class WorkbookTests(ServedSites sites) : BrowserTest(sites)
{
    private const string Kind = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

    /// <summary>A pile of which a log was kept.</summary>
    private const string Logged = "A-1338";

    [Fact]
    public async Task Every_table_of_the_interface_and_of_the_pages_comes_as_a_workbook_where_it_is_asked_for()
    {
        var visit = await VisitAsync(Person.Surveyor);
        var requests = visit.Context.APIRequest;
        var described = (await SiteAddresses.InterfaceAsync(requests)).Where(one => one.Method == "GET" && one.Path.EndsWith(".csv", StringComparison.Ordinal)).Select(one => one.Path);
        var linked = await LinkedAsync(visit);
        string[] tables = [.. described.Concat(linked).Select(path => path.Replace($"/{SiteAddresses.Pile}/", $"/{Logged}/", StringComparison.Ordinal)).Distinct()];
        tables.Length.ShouldBeGreaterThan(20);
        var wrong = new List<string>();
        var asked = 0;
        foreach (var table in tables)
        {
            var text = await requests.GetAsync(table);
            // A table that wants to be told what it is of answers so; it is asked for through the page that links to it.
            if (text.Status is 400 or 404) continue;
            asked++;
            if (text.Status != 200 || !text.Headers["content-type"].StartsWith("text/csv", StringComparison.Ordinal)) wrong.Add($"{table}: {text.Status}");
            var book = await requests.GetAsync(table + (table.Contains('?', StringComparison.Ordinal) ? "&" : "?") + "as=xlsx");
            if (book.Status != 200 || book.Headers["content-type"] != Kind || !book.Headers["content-disposition"].Contains(".xlsx", StringComparison.Ordinal)) wrong.Add($"{table} as a workbook: {book.Status} {book.Headers["content-type"]}");
            else if (await RowsAsync(book) != Lines(await text.TextAsync())) wrong.Add($"{table}: the workbook has {await RowsAsync(book)} rows, the text {Lines(await text.TextAsync())}");
        }

        wrong.ShouldBeEmpty(string.Join('\n', wrong));
        asked.ShouldBeGreaterThan(18);
    }

    private static async Task<string[]> LinkedAsync(Visit visit)
    {
        var found = new List<string>();
        foreach (var page in (await SiteAddresses.PagesAsync(visit)).Append($"/sites/{ServedSites.Demo}/piles/{Logged}"))
        {
            await visit.Page.GotoAsync(page);
            found.AddRange(await visit.Page.Locator("main a[download]").EvaluateAllAsync<string[]>("all => all.map(link => link.pathname + link.search)"));
        }

        return [.. found.Where(link => link.Contains(".csv", StringComparison.Ordinal) && !link.Contains("as=xlsx", StringComparison.Ordinal))];
    }

    private static async Task<int> RowsAsync(IAPIResponse book)
    {
        using var archive = new ZipArchive(new MemoryStream(await book.BodyAsync()));
        using var sheet = new StreamReader(archive.GetEntry("xl/worksheets/sheet1.xml")!.Open());
        return RowOf().Count(await sheet.ReadToEndAsync());
    }

    /// <summary>Rows of a table: line feeds that do not stand within quotation marks.</summary>
    private static int Lines(string text)
    {
        var (rows, quoted) = (0, false);
        foreach (var letter in text)
        {
            if (letter == '"') quoted = !quoted;
            else if (letter == '\n' && !quoted) rows++;
        }

        return rows;
    }

    [GeneratedRegex(@"<(x:)?row[ >]")]
    private static partial Regex RowOf();
}
