using Npgsql;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Piles;
using SiteProgress.Jobs.Recording;
using SiteProgress.Storage.Records;

namespace SiteProgress.Jobs.HandOver;

/// <summary>
/// Makes the hand-over package of a site: one archive with the as-built record, all that stands behind it, and what is needed to
/// check it without this software. The same records give the same bytes.
/// </summary>
public sealed class WriteHandOver(NpgsqlDataSource store, SiteHistories histories, UploadStore uploads)
{
    /// <summary>Makes the package of the site a person is on.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="upTo">The last record that goes in; null for all of them.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <returns>The package; null where the site has no such record.</returns>
    /// <exception cref="IOException">The disk for temporary files is full.</exception>
    [Needs(Right.See)]
    public Task<HandOverPackage?> RunAsync(Permit permit, long? upTo, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        return MakeAsync(permit.Site, upTo, cancellation);
    }

    /// <summary>Makes the package of a site by its code, for the operator's command.</summary>
    /// <returns>The package; null where there is no such site or nothing is recorded.</returns>
    [WithoutPermit("A command of the operator at the machine.")]
    public async Task<HandOverPackage?> RunAsOperatorAsync(string siteCode, CancellationToken cancellation)
    {
        await using NpgsqlConnection connection = await store.OpenConnectionAsync(cancellation);
        return await SiteKeys.FindAsync(connection, siteCode, cancellation) is { } site ? await MakeAsync(site, null, cancellation) : null;
    }

    private async Task<HandOverPackage?> MakeAsync(int site, long? upTo, CancellationToken cancellation)
    {
        await using NpgsqlConnection connection = await store.OpenConnectionAsync(cancellation);
        List<RecordEntry> records = [];
        await foreach (RecordEntry record in new RecordLog(connection, site).ReadAsync(0, upTo ?? long.MaxValue, cancellation)) records.Add(record);

        if (records.Count == 0 || records[^1].Sequence < upTo) return null;
        DerivedSite derived = histories.DerivedOf(site, records);
        if (derived.History.Settings is null) return null;
        IReadOnlyDictionary<string, string> names = await RecorderNames.ReadAsync(connection, records.Select(record => record.RecordedBy), cancellation);
        return await PackageWriter.WriteAsync(derived, records, names, upload => uploads.Open(site, upload), cancellation);
    }
}

/// <summary>A package ready to be handed over.</summary>
/// <param name="FileName">A name for it.</param>
/// <param name="Bytes">Its bytes; to be closed, after which they are gone.</param>
/// <param name="ByteLength">How many there are.</param>
/// <param name="Sha256">SHA-256 of the bytes, lower-case hexadecimal.</param>
/// <param name="Sequence">The last record in it.</param>
/// <param name="Head">Hash of the chain at that record.</param>
public sealed record HandOverPackage(string FileName, Stream Bytes, long ByteLength, string Sha256, long Sequence, string Head);
