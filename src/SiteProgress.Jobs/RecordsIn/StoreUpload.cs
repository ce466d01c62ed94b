using System.Globalization;
using SiteProgress.Jobs.Access;
using SiteProgress.Storage.Records;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>Keeps the raw bytes of a file that a person sent. Nothing is read or recorded yet.</summary>
public sealed class StoreUpload(UploadStore uploads, IntakeLimits limits, TimeProvider clock)
{
    /// <summary>Keeps a file.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="fileName">Name of the file as sent; only its last part is kept.</param>
    /// <param name="content">The bytes.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>Key of the upload, or why the file was not taken.</returns>
    [Needs(Right.BringIn)]
    public async Task<UploadResult> RunAsync(Permit permit, string fileName, Stream content, CancellationToken cancellation)
    {
        permit.Demand(Right.BringIn);
        long kept = await uploads.BytesKeptAsync(permit.Site, cancellation);
        if (kept >= limits.SiteQuotaBytes)
        {
            return UploadResult.Refused($"This site's files fill its quota of {Megabytes(limits.SiteQuotaBytes)}; ask the operator to raise it.");
        }

        UploadRow upload = new()
        {
            Upload = Guid.CreateVersion7(clock.GetUtcNow()),
            FileName = PlainName(fileName),
            Sha256 = "",
            UploadedBy = permit.Account,
            UploadedAt = clock.GetUtcNow().UtcDateTime,
        };
        bool taken = await uploads.KeepAsync(permit.Site, upload, content, limits.LargestFileBytes, cancellation);
        if (!taken) return UploadResult.Refused($"The file is longer than {Megabytes(limits.LargestFileBytes)}, the most this site takes in one file. Nothing was kept.");
        return upload.ByteLength == 0
            ? UploadResult.Refused("The file is empty: it has no bytes at all.")
            : new UploadResult(upload.Upload, null);
    }

    private static string PlainName(string fileName)
    {
        string last = fileName[(fileName.LastIndexOfAny(['/', '\\']) + 1)..];
        string plain = string.Concat(last.Where(letter => !char.IsControl(letter) && CharUnicodeInfo.GetUnicodeCategory(letter) != UnicodeCategory.Format)).Trim();
        if (plain.Length == 0) return "without a name";
        return plain.Length <= 120 ? plain : plain[..120];
    }

    private static string Megabytes(long bytes) => string.Create(CultureInfo.InvariantCulture, $"{bytes / 1048576.0:0.#} MB");
}

/// <summary>What became of an uploaded file.</summary>
/// <param name="Upload">Key of the upload when it was kept.</param>
/// <param name="Refusal">Why it was not.</param>
public sealed record UploadResult(Guid? Upload, string? Refusal)
{
    internal static UploadResult Refused(string reason) => new(null, reason);
}
