using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using Npgsql;
using SiteProgress.Core.Derivation;

namespace SiteProgress.Storage.Derived;

/// <summary>The derived state of a site in the store: written so that it says what the records give, or compared with that.</summary>
public sealed class DerivedStore
{
    private readonly DerivedTable<PileRow> _piles;
    private readonly DerivedTable<InstallationRow> _installations;
    private readonly DerivedTable<DayProductionRow> _production;
    private readonly DerivedTable<BatchRow> _batches;
    private readonly DerivedTable<PositionCheckRow> _positionChecks;
    private readonly DerivedTable<SiteRoleRow> _roles;
    private readonly DerivedTable<DiaryLineRow> _diary;
    private readonly DerivedTable<PlannedProgressRow> _plannedProgress;
    private readonly DerivedTable<WorkPlanRow> _workPlans;
    private readonly DerivedTable<DayNotesRow> _dayNotes;
    private readonly DerivedTable<DailyReportRow> _dailyReports;

    /// <summary>Reads the shape of the tables from the model.</summary>
    public DerivedStore(IModel model)
    {
        _piles = new(model);
        _installations = new(model);
        _production = new(model);
        _batches = new(model);
        _positionChecks = new(model);
        _roles = new(model);
        _diary = new(model);
        _plannedProgress = new(model);
        _workPlans = new(model);
        _dayNotes = new(model);
        _dailyReports = new(model);
    }

    /// <summary>Writes what differs, inside the caller's transaction.</summary>
    /// <returns>How many rows were written or removed.</returns>
    public async Task<int> WriteAsync(NpgsqlConnection connection, int site, DerivedSite derived, IReadOnlyList<SiteRoleRow> roles, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(derived);
        return await _roles.WriteAsync(connection, site, roles, cancellation)
            + await _batches.WriteAsync(connection, site, DerivedRows.Batches(derived), cancellation)
            + await _piles.WriteAsync(connection, site, DerivedRows.Piles(derived), cancellation)
            + await _installations.WriteAsync(connection, site, DerivedRows.Installations(derived), cancellation)
            + await _production.WriteAsync(connection, site, DerivedRows.Production(derived), cancellation)
            + await _positionChecks.WriteAsync(connection, site, DerivedRows.PositionChecks(derived), cancellation)
            + await _diary.WriteAsync(connection, site, ProgressRows.Diary(derived), cancellation)
            + await _plannedProgress.WriteAsync(connection, site, ProgressRows.Planned(derived), cancellation)
            + await _workPlans.WriteAsync(connection, site, ProgressRows.Plan(derived), cancellation)
            + await _dayNotes.WriteAsync(connection, site, ProgressRows.Notes(derived), cancellation)
            + await _dailyReports.WriteAsync(connection, site, ProgressRows.Reports(derived), cancellation);
    }

    /// <summary>Empties every table of the site and writes all rows again, inside the caller's transaction.</summary>
    public async Task ReplaceAsync(NpgsqlConnection connection, int site, DerivedSite derived, IReadOnlyList<SiteRoleRow> roles, CancellationToken cancellation)
    {
        foreach (string table in new[] { _piles.Name, _installations.Name, _production.Name, _batches.Name, _positionChecks.Name, _roles.Name, _diary.Name, _plannedProgress.Name, _workPlans.Name, _dayNotes.Name, _dailyReports.Name })
        {
            await using NpgsqlCommand command = new($"delete from {table} where site = $1", connection);
            command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = site });
            await command.ExecuteNonQueryAsync(cancellation);
        }

        await WriteAsync(connection, site, derived, roles, cancellation);
    }

    /// <summary>Compares every table with what the records give, inside the caller's transaction.</summary>
    public async Task<IReadOnlyList<TableDifference>> CompareAsync(NpgsqlConnection connection, int site, DerivedSite derived, IReadOnlyList<SiteRoleRow> roles, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(derived);
        return
        [
            await _roles.CompareAsync(connection, site, roles, cancellation),
            await _batches.CompareAsync(connection, site, DerivedRows.Batches(derived), cancellation),
            await _piles.CompareAsync(connection, site, DerivedRows.Piles(derived), cancellation),
            await _installations.CompareAsync(connection, site, DerivedRows.Installations(derived), cancellation),
            await _production.CompareAsync(connection, site, DerivedRows.Production(derived), cancellation),
            await _positionChecks.CompareAsync(connection, site, DerivedRows.PositionChecks(derived), cancellation),
            await _diary.CompareAsync(connection, site, ProgressRows.Diary(derived), cancellation),
            await _plannedProgress.CompareAsync(connection, site, ProgressRows.Planned(derived), cancellation),
            await _workPlans.CompareAsync(connection, site, ProgressRows.Plan(derived), cancellation),
            await _dayNotes.CompareAsync(connection, site, ProgressRows.Notes(derived), cancellation),
            await _dailyReports.CompareAsync(connection, site, ProgressRows.Reports(derived), cancellation),
        ];
    }
}
