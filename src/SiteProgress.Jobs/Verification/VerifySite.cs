using Npgsql;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Logs;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;
using SiteProgress.Storage.Derived;
using SiteProgress.Storage.Records;

namespace SiteProgress.Jobs.Verification;

/// <summary>
/// Recomputes a site from its records: the chain, the heads kept outside the store, and the derived state; and names the
/// first break of each. An operator's command.
/// </summary>
[WithoutPermit("A command of the operator at the machine.")]
public sealed class VerifySite(NpgsqlDataSource store, PileLogStore logs, DerivedStore derived, IChainHeadKeeper heads)
{
    /// <summary>Verifies a site, or null where there is no such site.</summary>
    public async Task<SiteVerification?> RunAsync(string siteCode, CancellationToken cancellation)
    {
        await using NpgsqlConnection connection = await store.OpenConnectionAsync(cancellation);
        if (await SiteKeys.FindAsync(connection, siteCode, cancellation) is not { } site) return null;
        await using NpgsqlTransaction transaction = await connection.BeginTransactionAsync(System.Data.IsolationLevel.RepeatableRead, cancellation);
        RecordLog log = new(connection, site);
        ChainHead head = await log.HeadAsync(cancellation);
        List<RecordEntry> records = [];
        await foreach (RecordEntry record in log.ReadAsync(0, cancellation)) records.Add(record);
        ChainBreak? chainBreak = HashChain.FirstBreak(siteCode, records) ?? EndsAtHead(records, head);
        IReadOnlyList<KeptHead> kept = await heads.ReadAsync(siteCode, cancellation);
        string? headBreak = FirstContradiction(records, kept);
        SiteVerification found = new(records.Count, chainBreak, headBreak, []) { HeadHash = head.Hash.ToString(), KeptHeads = kept.Count, LastKept = kept is [.., var last] ? last : null };
        if (chainBreak is not null) return found;

        SiteHistory history = SiteHistory.Empty.ReadBy(new LogReadings(logs.ShelfOf(site))).With(records);
        IReadOnlyList<TableDifference> differences = await derived.CompareAsync(
            connection, site, SiteDerivation.Derive(history), SiteRoles.Rows(history), cancellation);
        return found with { Tables = DerivedDifference.Of(differences) };
    }

    private static ChainBreak? EndsAtHead(List<RecordEntry> records, ChainHead head)
    {
        long last = records.Count == 0 ? 0 : records[^1].Sequence;
        if (last != head.Sequence) return new ChainBreak(Math.Min(last, head.Sequence) + 1, $"The store says that the chain ends at record {head.Sequence}; the last record found is {last}.");
        return records.Count > 0 && !records[^1].Hash.Equals(head.Hash)
            ? new ChainBreak(last, "The hash of the last record is not the head that the store keeps.")
            : null;
    }

    private static string? FirstContradiction(List<RecordEntry> records, IReadOnlyList<KeptHead> kept)
    {
        foreach (KeptHead one in kept)
        {
            if (one.Sequence > records.Count) return $"A head kept outside the store names record {one.Sequence} ({one.At}), which is no longer there.";
            string hash = records[(int)one.Sequence - 1].Hash.ToString();
            if (hash != one.Hash) return $"Record {one.Sequence} has another hash than the head kept outside the store on {one.At}: it, or a record before it, was altered afterwards.";
        }

        return null;
    }
}

/// <summary>What a verification found.</summary>
/// <param name="Records">Records read.</param>
/// <param name="ChainBreak">First break of the chain.</param>
/// <param name="HeadBreak">First contradiction with the heads kept outside the store.</param>
/// <param name="Tables">Derived tables compared; none when the chain is broken.</param>
public sealed record SiteVerification(int Records, ChainBreak? ChainBreak, string? HeadBreak, IReadOnlyList<DerivedDifference> Tables)
{
    /// <summary>Hash of the head that the store keeps, hexadecimal; it is what a sealed report prints.</summary>
    public string HeadHash { get; init; } = "";

    /// <summary>How many heads are kept outside the store.</summary>
    public int KeptHeads { get; init; }

    /// <summary>The last of them.</summary>
    public KeptHead? LastKept { get; init; }

    /// <summary>True when everything is as the records give it.</summary>
    public bool Sound => ChainBreak is null && HeadBreak is null && Tables.All(table => table.Identical);
}
