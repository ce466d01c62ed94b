using Npgsql;
using SiteProgress.Jobs.Access;

namespace SiteProgress.Jobs.Changes;

/// <summary>Hears from the store that records were added, by whichever node.</summary>
[WithoutPermit("It carries keys and sequence numbers to the node itself; each page asks the gate before it reads.")]
public sealed class HearRecords(NpgsqlDataSource store)
{
    /// <summary>The channel writers announce on.</summary>
    public static string Channel => "site_records";

    // A dead network path gives no error by itself; asking now and then finds it.
    private static readonly TimeSpan AskAfter = TimeSpan.FromSeconds(20);

    /// <summary>
    /// Listens on one connection until it breaks or is cancelled. What was recorded between two listenings is made up for at
    /// the beginning: each site whose records go on beyond what was heard is told of once.
    /// </summary>
    /// <param name="last">Last sequence heard of each site; kept up here, and handed in again when listening begins anew.</param>
    /// <param name="heard">Called for each notice.</param>
    /// <param name="cancellation">Ends it.</param>
    /// <exception cref="NpgsqlException">The connection broke.</exception>
    public async Task ListenAsync(IDictionary<int, long> last, Action<RecordNotice> heard, CancellationToken cancellation)
    {
        await using NpgsqlConnection connection = await store.OpenConnectionAsync(cancellation);
        connection.Notification += (_, notice) =>
        {
            if (RecordNotice.Read(notice.Payload) is { } read) Pass(read, last, heard);
        };
        await ExecuteAsync(connection, $"listen {Channel}", cancellation);

        // Read only after listening has begun, so that nothing falls between the two; what is told twice is passed on once.
        foreach (RecordNotice missed in await HeadsAsync(connection, cancellation)) Pass(missed, last, heard);
        while (true)
        {
            if (!await connection.WaitAsync(AskAfter, cancellation)) await ExecuteAsync(connection, "select 1", cancellation);
        }
    }

    private static void Pass(RecordNotice notice, IDictionary<int, long> last, Action<RecordNotice> heard)
    {
        if (last.TryGetValue(notice.Site, out long before) && before >= notice.Sequence) return;
        last[notice.Site] = notice.Sequence;
        heard(notice);
    }

    private static async Task<List<RecordNotice>> HeadsAsync(NpgsqlConnection connection, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = new("select site, sequence from derived.site_state order by site", connection);
        await using NpgsqlDataReader reader = await command.ExecuteReaderAsync(cancellation);
        List<RecordNotice> heads = [];
        while (await reader.ReadAsync(cancellation)) heads.Add(new RecordNotice(reader.GetInt32(0), reader.GetInt64(1)));
        return heads;
    }

    private static async Task ExecuteAsync(NpgsqlConnection connection, string statement, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = new(statement, connection);
        await command.ExecuteNonQueryAsync(cancellation);
    }
}
