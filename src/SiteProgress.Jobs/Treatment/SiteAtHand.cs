using NodaTime;
using Npgsql;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Progress;
using SiteProgress.Core.Treatment;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Piles;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Treatment;

/// <summary>The derived state of a site with the current working day and the names of people, for jobs that read.</summary>
internal sealed class SiteAtHand
{
    private readonly NpgsqlDataSource _store;

    private SiteAtHand(DerivedSite site, NpgsqlDataSource store, LocalDate today) => (Site, _store, Today) = (site, store, today);

    public DerivedSite Site { get; }

    public TreatedSite Treated => Site.Treated;

    public LocalDate Today { get; }

    public string TimeZone => Site.History.Settings?.TimeZone ?? "UTC";

    public static async Task<SiteAtHand> ReadAsync(Permit permit, SiteHistories histories, NpgsqlDataSource store, TimeProvider clock, CancellationToken cancellation)
    {
        DerivedSite site = await histories.ReadDerivedAsync(permit.Site, cancellation);
        Instant now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        return new SiteAtHand(site, store, site.History.Settings is { } settings ? new WorkingDays(settings).At(now).Day : now.InUtc().Date);
    }

    /// <summary>True when the non-conformance should be closed by now.</summary>
    public bool IsOverdue(NonConformance one) => one.IsOpen() && one.DueOn is { } due && due < Today;

    public async Task<IReadOnlyDictionary<string, string>> NamesAsync(IEnumerable<string?> recorders, CancellationToken cancellation)
    {
        await using NpgsqlConnection connection = await _store.OpenConnectionAsync(cancellation);
        return await RecorderNames.ReadAsync(connection, recorders.OfType<string>(), cancellation);
    }
}
