using Microsoft.AspNetCore.Http;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.SiteGrid;

/// <summary>A list of points, as the form sends it: pasted, or as a file that takes its place.</summary>
public sealed class PointListEntry
{
    private const int LongestFileBytes = 2_000_000;

    /// <summary>Points of one list at most.</summary>
    public static int MostLines => 10_000;

    /// <summary>Frame of the points, as in addresses.</summary>
    public string? From { get; set; }

    /// <summary>The list.</summary>
    public string? Text { get; set; }

    /// <summary>A file that takes the place of the list.</summary>
    public IFormFile? File { get; set; }

    /// <summary>EPSG code of the shift to another datum; empty for none.</summary>
    public string? Shift { get; set; }

    /// <summary>Puts the text of the file, where one was sent, in the place of the list.</summary>
    /// <returns>Null, or why the file cannot be taken.</returns>
    public async Task<string?> TakeFileAsync(CancellationToken cancellation)
    {
        (string? text, string? problem) = await SmallFile.ReadAsync(File, LongestFileBytes, cancellation);
        File = null;
        if (problem is not null) return $"{problem} Longer lists go through the interface for programs or the command, which stream.";
        Text = text ?? Text;
        if (string.IsNullOrWhiteSpace(Text)) return "Paste a list of points or choose a file.";
        return null;
    }
}
