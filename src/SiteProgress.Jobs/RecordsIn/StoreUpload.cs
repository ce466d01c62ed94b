using System.Globalization;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Operation;
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
        if (kept >= limits.SiteQuotaBytes) return Refused(UploadRefusal.QuotaFull);
        UploadRow upload = new()
        {
            Upload = Guid.CreateVersion7(clock.GetUtcNow()),
            FileName = ArrivedFile.PlainName(fileName),
            Sha256 = "",
            UploadedBy = permit.Account,
            UploadedAt = clock.GetUtcNow().UtcDateTime,
        };
        long room = Math.Min(limits.LargestFileBytes, limits.SiteQuotaBytes - kept);
        // A slow sender must not hold a connection of the store, so the file arrives whole before the store is asked for one.
        try
        {
            await using FileStream? arrived = await ArrivedFile.WholeAsync(content, room, cancellation);
            if (arrived is null || !await uploads.KeepAsync(permit.Site, upload, arrived, room, cancellation)) return TooMuch(room);
        }
        catch (IOException failure) when (DiskRoom.IsFull(failure))
        {
            return Refused(UploadRefusal.DiskFull);
        }

        return upload.ByteLength == 0 ? Refused(UploadRefusal.Empty) : new UploadResult(upload.Upload, null, null);
    }

    /// <summary>The refusal as a sentence for a person.</summary>
    public static string Sentence(UploadRefusal refusal, IntakeLimits limits)
    {
        ArgumentNullException.ThrowIfNull(limits);
        return refusal switch
        {
            UploadRefusal.TooLong => $"The file is longer than {Megabytes(limits.LargestFileBytes)}, the most this site takes in one file. Nothing was kept. Split it, or ask the operator to raise the limit.",
            UploadRefusal.QuotaFull => $"The file does not fit into what is left of this site's quota of {Megabytes(limits.SiteQuotaBytes)} for all files together. Nothing was kept. Ask the operator to raise it.",
            UploadRefusal.Empty => "The file is empty: it has no bytes at all. Nothing was kept.",
            UploadRefusal.NoFile => "No file was chosen. Choose one, then send it.",
            UploadRefusal.DiskFull => "The disk of the server is full, so the file could not be taken. Nothing was kept. Tell the operator of this server; the file itself is not at fault.",
            UploadRefusal.BrokenOff => "The file did not arrive whole. Nothing was kept. Send it again.",
            _ => throw new ArgumentOutOfRangeException(nameof(refusal), refusal, "unknown refusal"),
        };
    }

    private UploadResult TooMuch(long room) => Refused(room < limits.LargestFileBytes ? UploadRefusal.QuotaFull : UploadRefusal.TooLong);

    private UploadResult Refused(UploadRefusal refusal) => new(null, refusal, Sentence(refusal, limits));

    private static string Megabytes(long bytes) => string.Create(CultureInfo.InvariantCulture, $"{bytes / 1048576.0:0.#} MB");
}

/// <summary>Why an uploaded file was not kept.</summary>
public enum UploadRefusal
{
    /// <summary>Longer than one file may be.</summary>
    TooLong = 1,

    /// <summary>The site's quota is full.</summary>
    QuotaFull,

    /// <summary>No bytes.</summary>
    Empty,

    /// <summary>The form held no file.</summary>
    NoFile,

    /// <summary>The sender broke off, or what was sent is not a form.</summary>
    BrokenOff,

    /// <summary>The server has no room on its disk.</summary>
    DiskFull,
}

/// <summary>What became of an uploaded file.</summary>
/// <param name="Upload">Key of the upload when it was kept.</param>
/// <param name="Why">Why it was not.</param>
/// <param name="Refusal">The same as a sentence.</param>
public sealed record UploadResult(Guid? Upload, UploadRefusal? Why, string? Refusal);
