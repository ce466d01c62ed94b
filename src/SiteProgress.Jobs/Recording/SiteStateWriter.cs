using System.Text.Json;
using Npgsql;
using NpgsqlTypes;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Sites;
using SiteProgress.Storage.Records;

namespace SiteProgress.Jobs.Recording;

/// <summary>Writes how far the derived state of a site reaches, with the settings and the adjustment in force.</summary>
internal static class SiteStateWriter
{
    public static async Task WriteAsync(NpgsqlConnection connection, int site, ChainHead head, DerivedSite derived, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = new(
            """
            update derived.site_state
            set sequence = $2, hash = $3, rules_version = $4, settings = $5, drawing = $6, adjustment = $7
            where site = $1
            """,
            connection);
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = site });
        command.Parameters.Add(new NpgsqlParameter<long> { TypedValue = head.Sequence });
        command.Parameters.Add(new NpgsqlParameter { Value = head.Hash.Bytes.ToArray() });
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = SiteDerivation.RulesVersion });
        command.Parameters.Add(Json(derived.History.Settings is { } settings ? JsonSerializer.Serialize(settings, RecordJson.Options) : null));
        command.Parameters.Add(Json(DrawingOnMap.Of(derived)));
        command.Parameters.Add(Json(derived.History.Adjustments is [.., var current] ? JsonSerializer.Serialize(current, RecordJson.Options) : null));
        await command.ExecuteNonQueryAsync(cancellation);
    }

    private static NpgsqlParameter Json(string? json) => new() { Value = (object?)json ?? DBNull.Value, NpgsqlDbType = NpgsqlDbType.Jsonb };
}
