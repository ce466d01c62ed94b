using System.Text;
using Microsoft.AspNetCore.Http;

namespace SiteProgress.Web.Shell;

/// <summary>A small text file of a form, which takes the place of what was typed.</summary>
internal static class SmallFile
{
    /// <summary>Reads the text of a file.</summary>
    /// <param name="file">The file; null or empty where none was chosen.</param>
    /// <param name="longestBytes">Longest file, bytes.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <returns>The text, null where no file was chosen; or why it cannot be taken.</returns>
    public static async Task<(string? Text, string? Problem)> ReadAsync(IFormFile? file, int longestBytes, CancellationToken cancellation)
    {
        if (file is not { Length: > 0 }) return (null, null);
        if (file.Length > longestBytes) return (null, $"The file is longer than {longestBytes / 1000} kB.");
        using StreamReader reader = new(file.OpenReadStream(), Encoding.UTF8, detectEncodingFromByteOrderMarks: true);
        return (await reader.ReadToEndAsync(cancellation), null);
    }
}
