using System.Text.Json;
using NodaTime;
using Npgsql;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Sites;
using static SiteProgress.Jobs.Sites.RowReading;

namespace SiteProgress.Jobs.Progress;

/// <summary>Reads plan of work and schedule of progress for jobs that show something.</summary>
internal static class StoredPlan
{
    /// <summary>Plan of work in force; an empty one before there is any.</summary>
    public static async Task<WorkPlan> PlanAsync(NpgsqlDataSource store, int site, CancellationToken cancellation)
        => (await store.ReadAsync("select plan::text from derived.work_plan where site = $1", row => row.GetString(0), cancellation, Site(site)))
            .Select(text => JsonSerializer.Deserialize<WorkPlan>(text, RecordJson.Options)!).SingleOrDefault() ?? WorkPlan.Empty;

    /// <summary>Schedule of progress in force.</summary>
    public static async Task<IReadOnlyList<PlannedProgress>> ScheduleAsync(NpgsqlDataSource store, int site, CancellationToken cancellation)
        => await store.ReadAsync(
            "select day, zone, cumulative_piles from derived.planned_progress where site = $1 order by zone, day",
            row => new PlannedProgress(LocalDate.FromDateOnly(row.GetFieldValue<DateOnly>(0)), row.GetString(1) is { Length: > 0 } zone ? zone : null, row.GetInt32(2)),
            cancellation,
            Site(site));
}
