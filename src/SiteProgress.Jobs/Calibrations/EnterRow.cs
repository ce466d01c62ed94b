using System.Globalization;
using System.Text;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.RecordsIn;

namespace SiteProgress.Jobs.Calibrations;

/// <summary>
/// Records one row that a surveyor typed on a page, by the way that every file takes: what was typed is kept as a table of one row,
/// read by the same reader and judged by the same rules.
/// </summary>
public sealed class EnterRow(StoreUpload store, RecordUpload record, TimeProvider clock)
{
    /// <summary>Records a row.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="content">What the row is.</param>
    /// <param name="cells">Titles of columns and what was typed, as typed.</param>
    /// <param name="cancellation">Stops the work; nothing is recorded then.</param>
    /// <returns>Null, or why it was not recorded: which column, what was found, what was expected.</returns>
    [Needs(Right.KeepSurvey)]
    public async Task<string?> RunAsync(Permit permit, BatchContent content, IReadOnlyList<(string Title, string? Value)> cells, CancellationToken cancellation)
    {
        permit.Demand(Right.KeepSurvey);
        (string Title, string? Value)[] typed = [.. cells.Where(cell => !string.IsNullOrWhiteSpace(cell.Value))];
        if (typed.Length == 0) return "Nothing was typed.";
        string table = Line(typed.Select(cell => cell.Title)) + Line(typed.Select(cell => cell.Value!));
        string name = string.Create(CultureInfo.InvariantCulture, $"typed on the page {clock.GetUtcNow():yyyy-MM-dd'T'HH-mm-ss'Z'}.csv");
        using MemoryStream bytes = new(Encoding.UTF8.GetBytes(table));
        UploadResult stored = await store.RunAsync(permit, name, bytes, cancellation);
        if (stored.Upload is not { } upload) return stored.Refusal;
        RecordingResult result = await record.RunAsync(
            permit, upload, UploadChoices.AsTheFileSays with { Content = content, TakesUpRemembered = false, DecimalComma = false }, leaveOutProblems: false, cancellation);
        if (result.Refusal is null) return null;
        return result.Problems.Count > 0
            ? string.Join(" ", result.Problems.Select(problem => $"{problem.Column ?? "The row"}: {(problem.Found is { Length: > 0 } found ? $"found \u201C{found}\u201D; " : "")}expected {problem.Expected}."))
            : result.Refusal;
    }

    private static string Line(IEnumerable<string> cells)
        => string.Join(',', cells.Select(cell => $"\"{cell.ReplaceLineEndings(" ").Replace("\"", "\"\"", StringComparison.Ordinal)}\"")) + "\n";
}
