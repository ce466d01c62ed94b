using Npgsql;
using SiteProgress.Core.Matching;
using SiteProgress.Jobs.Access;

namespace SiteProgress.Jobs.Map;

/// <summary>How many recorded installations the map cannot show on a planned pile.</summary>
public sealed class CountUnplaced(NpgsqlDataSource store)
{
    /// <summary>The counts, and the state they belong to.</summary>
    /// <param name="RecordSequence">The last record they follow from.</param>
    /// <param name="Waiting">Installations whose match a person has to decide.</param>
    /// <param name="Trial">Trial piles, outside the design.</param>
    /// <param name="GeographicCrs">Name of the geographic system that latitudes and longitudes of the site belong to; null before an adjustment.</param>
    public sealed record Unplaced(long RecordSequence, int Waiting, int Trial, string? GeographicCrs);

    /// <summary>Counts them.</summary>
    [Needs(Right.See)]
    public async Task<Unplaced> RunAsync(Permit permit, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        await using NpgsqlConnection connection = await store.OpenConnectionAsync(cancellation);
        MapSite site = await MapSite.ReadAsync(connection, permit.Site, cancellation);
        await using NpgsqlCommand command = new(
            """
            select s.sequence,
                   (select count(*) from derived.installation i where i.site = s.site and i.waits_for_decision)::int,
                   (select count(*) from derived.installation i where i.site = s.site and i.match = $2)::int
            from derived.site_state s where s.site = $1
            """,
            connection);
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = permit.Site });
        command.Parameters.Add(new NpgsqlParameter<short> { TypedValue = (short)MatchOutcome.Trial });
        await using NpgsqlDataReader reader = await command.ExecuteReaderAsync(cancellation);
        return await reader.ReadAsync(cancellation)
            ? new Unplaced(reader.GetInt64(0), reader.GetInt32(1), reader.GetInt32(2), site.Service?.Crs.GeographicName)
            : new Unplaced(0, 0, 0, null);
    }
}
