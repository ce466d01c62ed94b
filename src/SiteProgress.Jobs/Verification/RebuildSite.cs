using Npgsql;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Logs;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;
using SiteProgress.Storage.Derived;
using SiteProgress.Storage.Records;

namespace SiteProgress.Jobs.Verification;

/// <summary>Makes the derived state of a site anew from its records, under the site's lock, and says whether it was identical. An operator's command.</summary>
[WithoutPermit("A command of the operator at the machine.")]
public sealed class RebuildSite(NpgsqlDataSource store, PileLogStore logs, DerivedStore derived)
{
    /// <summary>Rebuilds a site.</summary>
    /// <returns>What differed before the rebuild, or null where there is no such site.</returns>
    public async Task<IReadOnlyList<DerivedDifference>?> RunAsync(string siteCode, CancellationToken cancellation)
    {
        await using NpgsqlConnection connection = await store.OpenConnectionAsync(cancellation);
        if (await SiteKeys.FindAsync(connection, siteCode, cancellation) is not { } site) return null;
        await using NpgsqlTransaction transaction = await connection.BeginTransactionAsync(cancellation);
        RecordLog log = new(connection, site);
        ChainHead head = await log.LockAsync(cancellation);
        List<RecordEntry> records = [];
        await foreach (RecordEntry record in log.ReadAsync(0, cancellation)) records.Add(record);
        SiteHistory history = SiteHistory.Empty.ReadBy(new LogReadings(logs.ShelfOf(site))).With(records);
        DerivedSite made = SiteDerivation.Derive(history);
        IReadOnlyList<TableDifference> differences = await derived.CompareAsync(connection, site, made, SiteRoles.Rows(history), cancellation);
        await derived.ReplaceAsync(connection, site, made, SiteRoles.Rows(history), cancellation);
        await SiteStateWriter.WriteAsync(connection, site, head, made, cancellation);
        await transaction.CommitAsync(cancellation);
        return DerivedDifference.Of(differences);
    }
}
