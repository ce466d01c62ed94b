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

    /// <summary>Listens on one connection until it breaks or is cancelled.</summary>
    /// <param name="heard">Called for each notice, and once with <see cref="RecordNotice.Any"/> when listening has begun.</param>
    /// <param name="cancellation">Ends it.</param>
    /// <exception cref="NpgsqlException">The connection broke.</exception>
    public async Task ListenAsync(Action<RecordNotice> heard, CancellationToken cancellation)
    {
        await using NpgsqlConnection connection = await store.OpenConnectionAsync(cancellation);
        connection.Notification += (_, notice) =>
        {
            if (RecordNotice.Read(notice.Payload) is { } read) heard(read);
        };
        await ExecuteAsync(connection, $"listen {Channel}", cancellation);
        heard(RecordNotice.Any);
        while (true)
        {
            if (!await connection.WaitAsync(AskAfter, cancellation)) await ExecuteAsync(connection, "select 1", cancellation);
        }
    }

    private static async Task ExecuteAsync(NpgsqlConnection connection, string statement, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = new(statement, connection);
        await command.ExecuteNonQueryAsync(cancellation);
    }
}
