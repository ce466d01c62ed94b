using System.Security.Cryptography;
using Npgsql;
using SiteProgress.Core.Logs;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;
using SiteProgress.Storage.Records;

namespace SiteProgress.Jobs.Verification;

/// <summary>
/// Holds the files that records came in by against the hashes that stand in the records. The chain covers the hash of a file and not
/// its bytes, so a file altered in the store leaves the chain whole. An operator's command.
/// </summary>
[WithoutPermit("A command of the operator at the machine.")]
public sealed class VerifyFiles(NpgsqlDataSource store, SiteHistories histories, UploadStore uploads, PileLogStore logs)
{
    /// <summary>Reads every file of a site once.</summary>
    /// <returns>How many files were read and what is wrong with the first that is not as it came in; null where there is no such site.</returns>
    public async Task<FilesVerification?> RunAsync(string siteCode, CancellationToken cancellation)
    {
        int site;
        await using (NpgsqlConnection connection = await store.OpenConnectionAsync(cancellation))
        {
            if (await SiteKeys.FindAsync(connection, siteCode, cancellation) is not { } found) return null;
            site = found;
        }

        SiteHistory history = await histories.ReadAsync(site, cancellation);
        int files = 0;
        string? first = null;
        foreach (Batch batch in history.Batches)
        {
            files++;
            first ??= await WrongAsync(site, batch, cancellation);
        }

        foreach ((BatchRow<LoggedPile> log, _) in history.LoggedEver)
        {
            files++;
            first ??= Wrong(site, log);
        }

        return new FilesVerification(files, first);
    }

    private string? Wrong(int site, BatchRow<LoggedPile> log)
    {
        if (logs.FindBytes(site, log.Value.Sha256) is not { } bytes) return $"The samples of the log of record {log.Sequence} are not there.";
        return LogBytes.Hash(bytes) == log.Value.Sha256 ? null : $"The samples of the log of record {log.Sequence} are not those that were recorded: they give another hash.";
    }

    private async Task<string?> WrongAsync(int site, Batch batch, CancellationToken cancellation)
    {
        if (await uploads.FindAsync(site, batch.Body.Upload, cancellation) is null) return $"The file of batch {batch.Sequence}, {batch.Body.FileName}, is not there.";
        await using Stream bytes = uploads.Open(site, batch.Body.Upload);
        string sha256 = Convert.ToHexStringLower(await SHA256.HashDataAsync(bytes, cancellation));
        return sha256 == batch.Body.Sha256 ? null : $"The file of batch {batch.Sequence}, {batch.Body.FileName}, is not the one that was recorded: its bytes give another hash.";
    }
}

/// <summary>What became of the files.</summary>
/// <param name="Files">Files of batches and samples of logs that were looked at.</param>
/// <param name="FirstBreak">What is wrong with the first that is not as it came in; null when all are.</param>
public sealed record FilesVerification(int Files, string? FirstBreak);
