using System.Globalization;
using System.Text.Json;
using SiteProgress.Core.Records;

namespace SiteProgress.Jobs.HandOver;

/// <summary>A file that a record speaks of: the raw bytes of a batch, or a file attached as evidence.</summary>
/// <param name="Record">Sequence of the record.</param>
/// <param name="Upload">Key of its bytes.</param>
/// <param name="FileName">Its name, as sent.</param>
/// <param name="Sha256">SHA-256 of its bytes, as recorded.</param>
internal sealed record PackageFile(long Record, Guid Upload, string FileName, string Sha256)
{
    private const int LongestExtension = 8;

    /// <summary>Its path in a package. A sender chose the name, so nothing of it but letters and digits of its ending is used.</summary>
    public string Path
    {
        get
        {
            string ending = System.IO.Path.GetExtension(FileName);
            bool plain = ending.Length is > 1 and <= LongestExtension && ending.AsSpan(1).IndexOfAnyExceptInRange('0', 'z') < 0 && ending.Skip(1).All(char.IsAsciiLetterOrDigit);
            return string.Create(CultureInfo.InvariantCulture, $"files/{Record:000000}{(plain ? ending.ToLowerInvariant() : "")}");
        }
    }

    /// <summary>The file a record speaks of, whatever its kind; null where it speaks of none.</summary>
    public static PackageFile? Of(RecordEntry record)
    {
        if (record.Body.Span.IndexOf("\"upload\":\""u8) < 0) return null;
        using JsonDocument body = JsonDocument.Parse(record.Body);
        return body.RootElement.TryGetProperty("upload", out JsonElement upload) && body.RootElement.TryGetProperty("sha256", out JsonElement sha256)
            ? new PackageFile(record.Sequence, upload.GetGuid(), body.RootElement.TryGetProperty("fileName", out JsonElement name) ? name.GetString() ?? "" : "", sha256.GetString()!)
            : null;
    }
}
