using NodaTime;
using Npgsql;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Storage.Derived;
using SiteProgress.Storage.Records;

namespace SiteProgress.Jobs.Recording;

/// <summary>
/// The one way by which records enter a site. Under the site's lock it appends them to sequence and chain, works out the
/// derived state anew and writes what differs, all in one transaction; so a reader sees all of it or none.
/// </summary>
public sealed class SiteRecorder(NpgsqlDataSource store, DerivedStore derivedStore, IChainHeadKeeper heads, HistoryCache cache, TimeProvider clock)
{
    /// <summary>The name of whoever gives commands at the machine itself.</summary>
    public static readonly string Operator = "operator";

    /// <summary>Appends records on behalf of a person, whose role is read once more under the lock.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="right">The right that must still be held.</param>
    /// <param name="make">Makes the records from the history as it stands under the lock; an empty list records nothing.</param>
    /// <param name="cancellation">Stops the work; nothing is recorded then.</param>
    /// <returns>Sequences of the first and last record.</returns>
    [WithoutPermit("It demands the right that the calling job names, and once more under the lock.")]
    public async Task<RecordedRange> AppendAsync(
        Permit permit, Right right, Func<SiteHistory, IReadOnlyList<RecordBody>> make, CancellationToken cancellation)
    {
        permit.Demand(right);
        return await AppendAsync(
            permit.Site, permit.SiteCode, connection => DemandRoleStillHeldAsync(connection, permit, cancellation), AccountName(permit.Account), make, cancellation);
    }

    /// <summary>Appends records on behalf of a sender, whose key is looked up once more under the lock.</summary>
    internal Task<RecordedRange> AppendAsSenderAsync(
        SenderPermit permit, Func<SiteHistory, IReadOnlyList<RecordBody>> make, CancellationToken cancellation)
        => AppendAsync(
            permit.Site, permit.SiteCode, connection => permit.DemandStillHeldAsync(connection, cancellation), SenderKey.RecorderName(permit.Key), make, cancellation);

    /// <summary>Appends records that are made from the derived state as it stands under the lock.</summary>
    /// <inheritdoc cref="AppendAsync(Permit, Right, Func{SiteHistory, IReadOnlyList{RecordBody}}, CancellationToken)"/>
    [WithoutPermit("It demands the right that the calling job names, and once more under the lock.")]
    public Task<RecordedRange> AppendOnDerivedAsync(
        Permit permit, Right right, Func<DerivedSite, IReadOnlyList<RecordBody>> make, CancellationToken cancellation)
        => AppendAsync(permit, right, history => make(cache.DerivedOf(history)), cancellation);

    /// <summary>Appends records on behalf of the operator, who works at the machine itself.</summary>
    internal Task<RecordedRange> AppendAsOperatorAsync(
        int site, string siteCode, Func<SiteHistory, IReadOnlyList<RecordBody>> make, CancellationToken cancellation)
        => AppendAsync(site, siteCode, _ => Task.CompletedTask, Operator, make, cancellation);

    /// <summary>How an account is written in a record.</summary>
    public static string AccountName(Guid account) => $"account {account:D}";

    private async Task<RecordedRange> AppendAsync(
        int site, string siteCode, Func<NpgsqlConnection, Task> demandStillHeld, string by, Func<SiteHistory, IReadOnlyList<RecordBody>> make, CancellationToken cancellation)
    {
        await using NpgsqlConnection connection = await store.OpenConnectionAsync(cancellation);
        await using NpgsqlTransaction transaction = await connection.BeginTransactionAsync(cancellation);
        RecordLog log = new(connection, site);
        ChainHead head = await log.LockAsync(cancellation);
        await demandStillHeld(connection);
        SiteHistory history = await cache.HistoryAsync(log, site, head, cancellation);
        IReadOnlyList<RecordBody> bodies = make(history);
        if (bodies.Count == 0) return new RecordedRange(head.Sequence, head.Sequence);

        // Record by record to the store and into the history: the bytes of a large file are never there at once.
        GrowingHistory growing = history.Grow();
        RecordEntry last = await log.AppendAsync(Chain(siteCode, by, head, bodies), growing.Add, cancellation);
        SiteHistory next = growing.Grown();
        ChainHead newHead = new(last.Sequence, last.Hash, SiteDerivation.RulesVersion);
        bodies = [];
        DerivedSite derived = cache.DerivedOf(next);
        await derivedStore.WriteAsync(connection, site, derived, SiteRoles.Rows(next), cancellation);
        await SiteStateWriter.WriteAsync(connection, site, newHead, derived, cancellation);
        await NotifyAsync(connection, site, newHead.Sequence, cancellation);
        await transaction.CommitAsync(cancellation);

        cache.Keep(site, next, newHead);
        await heads.KeepAsync(siteCode, newHead, Now(), CancellationToken.None);
        return new RecordedRange(head.Sequence + 1, newHead.Sequence);
    }

    private IEnumerable<RecordEntry> Chain(string siteCode, string by, ChainHead head, IReadOnlyList<RecordBody> bodies)
    {
        Instant now = Now();
        (long sequence, ChainHash previous, long? batch) = (head.Sequence, head.Hash, null);
        foreach (RecordBody body in bodies)
        {
            sequence++;
            long? batchOfRow = body is IRowBody ? batch : null;
            byte[] bytes = RecordJson.ToBytes(body);
            previous = HashChain.Next(siteCode, sequence, body.Kind, now, by, batchOfRow, previous, bytes);
            yield return new RecordEntry(sequence, body.Kind, now, by, batchOfRow, bytes, previous);
            if (body is BatchBody) batch = sequence;
        }
    }

    private Instant Now()
    {
        // The store keeps microseconds; the hash must cover exactly what the store gives back.
        Instant now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        return Instant.FromUnixTimeTicks(now.ToUnixTimeTicks() / 10 * 10);
    }

    private static async Task DemandRoleStillHeldAsync(NpgsqlConnection connection, Permit permit, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = new("select role from derived.site_role where site = $1 and account = $2", connection);
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = permit.Site });
        command.Parameters.Add(new NpgsqlParameter<Guid> { TypedValue = permit.Account });
        object? role = await command.ExecuteScalarAsync(cancellation);
        if (role is not short held || (Role)held != permit.Role) throw new AccessWithdrawnException();
    }

    private static async Task NotifyAsync(NpgsqlConnection connection, int site, long sequence, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = new("select pg_notify('site_records', $1)", connection);
        command.Parameters.Add(new NpgsqlParameter<string> { TypedValue = FormattableString.Invariant($"{site}:{sequence}") });
        await command.ExecuteNonQueryAsync(cancellation);
    }
}

/// <summary>Sequences of the first and last record of one append.</summary>
/// <param name="First">First sequence.</param>
/// <param name="Last">Last sequence.</param>
public readonly record struct RecordedRange(long First, long Last);
