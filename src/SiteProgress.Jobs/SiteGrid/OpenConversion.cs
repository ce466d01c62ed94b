using Npgsql;
using SiteProgress.Core.Coordinates;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.SiteGrid;

/// <summary>Gives the operator the ways between a site's frames, for lists too long for a page.</summary>
[WithoutPermit("A command of the operator at the machine.")]
public sealed class OpenConversion(NpgsqlDataSource store)
{
    /// <summary>The ways between the frames by the adjustment in force, or why there are none.</summary>
    /// <param name="siteCode">The site.</param>
    /// <param name="cancellation">Stops the work.</param>
    public async Task<(CoordinateService? Service, string? Refusal)> RunAsync(string siteCode, CancellationToken cancellation)
    {
        await using NpgsqlConnection connection = await store.OpenConnectionAsync(cancellation);
        if (await SiteKeys.FindAsync(connection, siteCode, cancellation) is not { } site) return (null, $"There is no site '{siteCode}'.");
        return await SiteAdjustments.ReadAsync(store, site, cancellation) is [.., { } current]
            ? (SiteAdjustments.Service(current.Body), null)
            : (null, $"The site {siteCode} has no adjustment of its grid yet.");
    }
}
