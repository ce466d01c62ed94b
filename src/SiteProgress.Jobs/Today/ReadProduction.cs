using Npgsql;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Sites;
using static SiteProgress.Jobs.Sites.RowReading;

namespace SiteProgress.Jobs.Today;

/// <summary>Reads production by working day, shift, barge, casing and zone.</summary>
public sealed class ReadProduction(NpgsqlDataSource store)
{
    /// <summary>Reads the days of a period.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="from">First working day; none means from the beginning.</param>
    /// <param name="to">Last working day; none means to the end.</param>
    /// <param name="cancellation">Ends the reading.</param>
    [Needs(Right.See)]
    public async Task<IReadOnlyList<Line>> RunAsync(Permit permit, DateOnly? from, DateOnly? to, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        return await store.ReadAsync(
            """
            select working_day, shift, barge, casing, zone, attempts, piles, metres, sand_in_casing, sand_in_pile, piles_with_finding
            from derived.day_production where site = $1 and ($2 is null or working_day >= $2) and ($3 is null or working_day <= $3)
            order by working_day, shift, barge, casing, zone
            """,
            row => new Line(
                row.GetFieldValue<DateOnly>(0), row.GetString(1), row.GetString(2), row.GetInt32(3) is > 0 and int casing ? casing : null, row.GetString(4),
                row.GetInt32(5), row.GetInt32(6), row.GetDouble(7), row.GetDouble(8), row.GetDouble(9), row.GetInt32(10)),
            cancellation,
            Site(permit.Site),
            Day(from),
            Day(to));
    }

    /// <summary>What one barge built with one casing in one zone on one working day and shift.</summary>
    /// <param name="WorkingDay">Working day.</param>
    /// <param name="Shift">Shift; empty where the site has none.</param>
    /// <param name="Barge">Barge.</param>
    /// <param name="Casing">Casing; null where the records do not say.</param>
    /// <param name="Zone">Zone; empty where no planned pile is adopted.</param>
    /// <param name="Attempts">Attempts that ended.</param>
    /// <param name="Piles">Piles completed.</param>
    /// <param name="Metres">Metres of pile that stand.</param>
    /// <param name="SandInCasingCubicMetres">Sand used, loose volume in the casing, all attempts.</param>
    /// <param name="SandInPileCubicMetres">Sand that stands, volume in the pile.</param>
    /// <param name="PilesWithFinding">Completed piles of which a check is not met.</param>
    public sealed record Line(
        DateOnly WorkingDay,
        string Shift,
        string Barge,
        int? Casing,
        string Zone,
        int Attempts,
        int Piles,
        double Metres,
        double SandInCasingCubicMetres,
        double SandInPileCubicMetres,
        int PilesWithFinding);
}
