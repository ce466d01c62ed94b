using System.Text;
using System.Text.Json;
using NodaTime;
using Npgsql;
using SiteProgress.Core.Records;

namespace SiteProgress.Jobs.Piles;

/// <summary>A record as it was kept, with what it says.</summary>
internal sealed record KeptRecord(long Sequence, Instant RecordedAt, string RecordedBy, long? Batch, RecordBody Body);

/// <summary>Finds the records that concern one pile: those that name it, and those that concern the whole site.</summary>
internal static class RecordsOfPile
{
    /// <summary>Reads them in order, those of withdrawn batches too.</summary>
    /// <param name="connection">An open connection.</param>
    /// <param name="site">Key of the site.</param>
    /// <param name="number">Pile number.</param>
    /// <param name="alsoSequences">Installations that concern the pile under another number.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <remarks>
    /// A body is canonical JSON, so a number stands in it in one form only; the store looks for its bytes and this class
    /// then reads the body and compares the number itself.
    /// </remarks>
    public static async Task<IReadOnlyList<KeptRecord>> ReadAsync(
        NpgsqlConnection connection, int site, string number, IReadOnlyList<long> alsoSequences, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = new(
            """
            select sequence, recorded_at, recorded_by, batch, kind, body
            from record.site_record
            where site = $1
              and (kind = any($2) or sequence = any($3) or (kind = any($4) and position($5 in body) > 0))
            order by sequence
            """,
            connection);
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = site });
        command.Parameters.Add(new NpgsqlParameter<short[]> { TypedValue = Kinds(RecordKind.SiteOpened, RecordKind.SettingsRevised, RecordKind.AdjustmentAdopted, RecordKind.BatchWithdrawn) });
        command.Parameters.Add(new NpgsqlParameter<long[]> { TypedValue = [.. alsoSequences] });
        command.Parameters.Add(new NpgsqlParameter<short[]> { TypedValue = Kinds(RecordKind.PilePlanned, RecordKind.PileInstalled) });
        command.Parameters.Add(new NpgsqlParameter<byte[]> { TypedValue = Encoding.UTF8.GetBytes($"umber\":\"{JsonEncodedText.Encode(number)}\"") });
        await using NpgsqlDataReader reader = await command.ExecuteReaderAsync(cancellation);
        List<KeptRecord> records = [];
        while (await reader.ReadAsync(cancellation))
        {
            RecordBody body = RecordJson.FromBytes((RecordKind)reader.GetInt16(4), reader.GetFieldValue<byte[]>(5));
            if (!Concerns(body, number) && !alsoSequences.Contains(reader.GetInt64(0))) continue;
            records.Add(new KeptRecord(
                reader.GetInt64(0),
                Instant.FromDateTimeUtc(reader.GetDateTime(1)),
                reader.GetString(2),
                reader.IsDBNull(3) ? null : reader.GetInt64(3),
                body));
        }

        return records;
    }

    private static bool Concerns(RecordBody body, string number) => body switch
    {
        PilePlannedBody planned => string.Equals(planned.Pile.Number, number, StringComparison.OrdinalIgnoreCase),
        PileInstalledBody installed => string.Equals(installed.Installation.PileNumber, number, StringComparison.OrdinalIgnoreCase),
        _ => true,
    };

    private static short[] Kinds(params ReadOnlySpan<RecordKind> kinds)
    {
        short[] numbers = new short[kinds.Length];
        for (int index = 0; index < kinds.Length; index++) numbers[index] = (short)kinds[index];
        return numbers;
    }
}
