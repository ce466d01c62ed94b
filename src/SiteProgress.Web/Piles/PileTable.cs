using System.Globalization;
using Microsoft.Net.Http.Headers;
using NodaTime;
using SiteProgress.Exchange;
using SiteProgress.Jobs.Piles;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Piles;

/// <summary>A list of piles as a table to keep: comma-separated text, written as it is read however long it is, or a workbook.</summary>
/// <param name="site">Code of the site, for the name of the file.</param>
/// <param name="choices">Datum, time zone and the record the list follows from.</param>
/// <param name="lines">The piles.</param>
internal sealed class PileTable(string site, ListPiles.Choices choices, IAsyncEnumerable<PileLine> lines) : IResult
{
    private const int PieceBytes = 1 << 16;

    /// <inheritdoc />
    public async Task ExecuteAsync(HttpContext httpContext)
    {
        string name = string.Create(CultureInfo.InvariantCulture, $"{site}-piles-record-{choices.RecordSequence}.csv");
        if (TableAnswer.IsWorkbook(httpContext))
        {
            WorkbookWriter workbook = new();
            Head(workbook);
            await foreach (PileLine line in lines.WithCancellation(httpContext.RequestAborted)) Row(workbook, line);
            await TableAnswer.Workbook(workbook, name).ExecuteAsync(httpContext);
            return;
        }

        HttpResponse response = httpContext.Response;
        response.ContentType = TableAnswer.ContentType;
        ContentDispositionHeaderValue file = new("attachment");
        file.SetHttpFileName(name);
        response.Headers.ContentDisposition = file.ToString();

        // The table writer writes at once, a response only in its own time: rows are gathered in pieces between the two.
        using MemoryStream piece = new();
        await using StreamWriter text = new(piece, TableWriter.Encoding);
        TableWriter table = new(text);
        Head(table);
        await foreach (PileLine line in lines.WithCancellation(httpContext.RequestAborted))
        {
            Row(table, line);
            if (piece.Length > PieceBytes) await HandOverAsync(text, piece, response.Body, httpContext.RequestAborted);
        }

        await HandOverAsync(text, piece, response.Body, httpContext.RequestAborted);
    }

    private static async Task HandOverAsync(StreamWriter text, MemoryStream piece, Stream body, CancellationToken cancellation)
    {
        await text.FlushAsync(cancellation);
        piece.Position = 0;
        await piece.CopyToAsync(body, cancellation);
        piece.SetLength(0);
    }

    private void Head(TableWriter table) => table.Header(
        "Pile No", "Zone", "State", "Working day", "Shift", "End", "Barge", "Casing", "Set-up", "Attempts",
        "Design X [m]", "Design Y [m]", "As-built X [m]", "As-built Y [m]", "dE [mm]", "dN [mm]", "Radial [mm]", "Limit [mm]", "Limit along [mm]", "Limit across [mm]", "Uncertainty [mm]", "Comparable", "Beyond alert",
        $"Design top level, {choices.LevelDatum} [m]", $"Design tip level, {choices.LevelDatum} [m]", $"As-built top level, {choices.LevelDatum} [m]", $"As-built tip level, {choices.LevelDatum} [m]",
        "Length [m]", "Design diameter [m]", "Mean diameter [m]", "Sand in casing [m3]", "Sand in pile [m3]", "Design sand in pile [m3]", "Not met", "Not judged", "Design changed after building", "Decided");

    private void Row(TableWriter table, PileLine line) => table
        .Text(line.Number).Text(line.Zone).Text(StateWords.Of(line.State))
        .Text(line.WorkingDay?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)).Text(line.Shift)
        .Time(line.EndedAt is { } ended ? Instant.FromDateTimeUtc(DateTime.SpecifyKind(ended, DateTimeKind.Utc)) : null, DateTimeZoneProviders.Tzdb[choices.TimeZone])
        .Text(line.Barge).Whole(line.Casing).Text(line.SetUp).Whole(line.Attempts)
        .Number(line.DesignXMetres, 3).Number(line.DesignYMetres, 3).Number(line.AsBuiltXMetres, 3).Number(line.AsBuiltYMetres, 3)
        .Number(line.DeviationEastMetres * 1000, 1).Number(line.DeviationNorthMetres * 1000, 1).Number(line.DeviationRadialMetres * 1000, 1)
        .Number(line.RadialLimitMetres * 1000, 0).Number(line.AlongLimitMetres * 1000, 0).Number(line.AcrossLimitMetres * 1000, 0).Number(line.UncertaintyMetres * 1000, 0)
        .Text(line.DeviationRadialMetres is null ? null : line.Comparable ? "yes" : "no").Text(line.BeyondAlert ? "yes" : "no")
        .Number(line.DesignTopLevelMetres, 2).Number(line.DesignTipLevelMetres, 2).Number(line.AsBuiltTopLevelMetres, 2).Number(line.AsBuiltTipLevelMetres, 2)
        .Number(line.LengthMetres, 2).Number(line.DesignDiameterMetres, 2).Number(line.MeanDiameterMetres, 3)
        .Number(line.SandInCasingCubicMetres, 2).Number(line.SandInPileCubicMetres, 2).Number(line.SandDesignCubicMetres, 2)
        .Text(string.Join(' ', line.Findings)).Text(string.Join(' ', line.NotJudged)).Text(line.DesignChange).Text(line.DesignChange is null ? null : line.DesignChangeOpen ? "no" : "yes")
        .EndRow();
}
