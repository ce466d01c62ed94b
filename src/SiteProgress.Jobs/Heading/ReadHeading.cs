using System.Text.Json;
using NodaTime;
using Npgsql;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;

namespace SiteProgress.Jobs.Heading;

/// <summary>What stands on top of every page of a site.</summary>
public sealed class ReadHeading(NpgsqlDataSource store, TimeProvider time)
{
    /// <summary>The heading of a site.</summary>
    /// <param name="Code">Code in addresses.</param>
    /// <param name="Name">Name for people.</param>
    /// <param name="Invented">True for a scenario made up for demonstration.</param>
    /// <param name="WorkingDay">The current working day of the site.</param>
    /// <param name="Shift">The current shift; empty where the site has none.</param>
    /// <param name="TimeZone">IANA time zone in which the site's times are shown.</param>
    public sealed record Heading(string Code, string Name, bool Invented, LocalDate WorkingDay, string Shift, string TimeZone);

    /// <summary>Reads the heading from the settings in force.</summary>
    [Needs(Right.See)]
    public async Task<Heading?> RunAsync(Permit permit, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        await using NpgsqlCommand command = store.CreateCommand("select settings::text from derived.site_state where site = $1");
        command.Parameters.AddWithValue(permit.Site);
        if (await command.ExecuteScalarAsync(cancellation) is not string text) return null;
        SiteSettings settings = JsonSerializer.Deserialize<SiteSettings>(text, RecordJson.Options)!;
        WorkingMoment now = new WorkingDays(settings).At(Instant.FromDateTimeOffset(time.GetUtcNow()));
        return new Heading(permit.SiteCode, settings.Name, settings.Invented, now.Day, now.Shift, settings.TimeZone);
    }
}
