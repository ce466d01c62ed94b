using Microsoft.EntityFrameworkCore.Metadata;
using Npgsql;
using SiteProgress.Core.Derivation;

namespace SiteProgress.Storage.Derived;

/// <summary>The derived state of a site in the store: written so that it says what the records give, or compared with that.</summary>
public sealed class DerivedStore
{
    private readonly IReadOnlyList<Part> _parts;

    /// <summary>Reads the shape of the tables from the model.</summary>
    public DerivedStore(IModel model)
        => _parts =
        [
            Of(model, (_, roles) => roles),
            Of(model, (site, _) => DerivedRows.Batches(site)),
            Of(model, (site, _) => DerivedRows.Piles(site)),
            Of(model, (site, _) => DerivedRows.Installations(site)),
            Of(model, (site, _) => DerivedRows.Production(site)),
            Of(model, (site, _) => DerivedRows.PositionChecks(site)),
            Of(model, (site, _) => ProgressRows.Diary(site)),
            Of(model, (site, _) => ProgressRows.Planned(site)),
            Of(model, (site, _) => ProgressRows.Plan(site)),
            Of(model, (site, _) => ProgressRows.Notes(site)),
            Of(model, (site, _) => ProgressRows.Reports(site)),
            Of(model, (site, _) => SurveyRows.Calibrations(site)),
            Of(model, (site, _) => PileLogRows.Logs(site)),
            Of(model, (site, _) => SurveyRows.WaterDays(site)),
            Of(model, (site, _) => SurveyRows.Gauges(site)),
            Of(model, (site, _) => SurveyRows.GaugeChecks(site)),
            Of(model, (site, _) => SurveyRows.ClockCorrections(site)),
            Of(model, (site, _) => SurveyRows.SenderKeys(site)),
            Of(model, (site, _) => DerivedTreatment.NonConformances(site)),
            Of(model, (site, _) => DerivedTreatment.Lots(site)),
            Of(model, (site, _) => DerivedTreatment.HoldPoints(site)),
        ];

    /// <summary>Writes what differs, inside the caller's transaction.</summary>
    /// <returns>How many rows were written or removed.</returns>
    public async Task<int> WriteAsync(NpgsqlConnection connection, int site, DerivedSite derived, IReadOnlyList<SiteRoleRow> roles, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(derived);
        int written = 0;
        foreach (Part part in _parts) written += await part.Write(connection, site, derived, roles, cancellation);
        return written;
    }

    /// <summary>Empties every table of the site and writes all rows again, inside the caller's transaction.</summary>
    public async Task ReplaceAsync(NpgsqlConnection connection, int site, DerivedSite derived, IReadOnlyList<SiteRoleRow> roles, CancellationToken cancellation)
    {
        foreach (Part part in _parts)
        {
            await using NpgsqlCommand command = new($"delete from {part.Table} where site = $1", connection);
            command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = site });
            await command.ExecuteNonQueryAsync(cancellation);
        }

        await WriteAsync(connection, site, derived, roles, cancellation);
    }

    /// <summary>Compares every table with what the records give, inside the caller's transaction.</summary>
    public async Task<IReadOnlyList<TableDifference>> CompareAsync(NpgsqlConnection connection, int site, DerivedSite derived, IReadOnlyList<SiteRoleRow> roles, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(derived);
        List<TableDifference> differences = [];
        foreach (Part part in _parts) differences.Add(await part.Compare(connection, site, derived, roles, cancellation));
        return differences;
    }

    private static Part Of<TRow>(IModel model, Func<DerivedSite, IReadOnlyList<SiteRoleRow>, IEnumerable<TRow>> rows)
        where TRow : class, IDerivedRow
    {
        DerivedTable<TRow> table = new(model);
        return new Part(
            table.Name,
            (connection, site, derived, roles, cancellation) => table.WriteAsync(connection, site, rows(derived, roles), cancellation),
            (connection, site, derived, roles, cancellation) => table.CompareAsync(connection, site, rows(derived, roles), cancellation));
    }

    private sealed record Part(
        string Table,
        Func<NpgsqlConnection, int, DerivedSite, IReadOnlyList<SiteRoleRow>, CancellationToken, Task<int>> Write,
        Func<NpgsqlConnection, int, DerivedSite, IReadOnlyList<SiteRoleRow>, CancellationToken, Task<TableDifference>> Compare);
}
