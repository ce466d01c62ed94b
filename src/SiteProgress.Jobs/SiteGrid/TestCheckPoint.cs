using Npgsql;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Access;

namespace SiteProgress.Jobs.SiteGrid;

/// <summary>A known mark measured: does the measurement agree with where the adjustment puts the mark?</summary>
public sealed class TestCheckPoint(NpgsqlDataSource store)
{
    /// <summary>Tests a measurement. Records nothing.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="mark">Name of the control point.</param>
    /// <param name="measured">Where it was measured, in any frame.</param>
    /// <param name="deviationMetres">Standard deviation of one coordinate of the measurement, metres.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>The test, or why there is none; null before an adjustment is adopted.</returns>
    [Needs(Right.See)]
    public async Task<CheckPointTest?> RunAsync(Permit permit, string mark, RecordedPosition measured, double deviationMetres, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        IReadOnlyList<AdoptedAdjustment> adopted = await SiteAdjustments.ReadAsync(store, permit.Site, cancellation);
        if (adopted is not [.., { } current]) return null;
        if (current.Body.ControlPoints.FirstOrDefault(one => one.Name == mark) is not { } known) return CheckPointTest.Refused($"There is no control point \"{mark}\" in the adjustment in force.");
        if (!(deviationMetres is > 0 and < 100)) return CheckPointTest.Refused("The standard deviation of the measurement must be above 0 and below 100 m.");
        Conversion conversion = (await new ConvertPoints(store).RunAsync(permit, [measured], cancellation))!;
        if (conversion.Points[0].Where is not { } where) return CheckPointTest.Refused(conversion.Points[0].Refusal!);
        ProjectedCoordinate expected = current.Body.Adjustment.Forward(known.Site);
        ControlPointMovement difference = ControlPointMovement.Test(expected, known.StandardDeviationMetres, where.Projected, deviationMetres);
        double x = where.Site.XMetres - known.Site.XMetres, y = where.Site.YMetres - known.Site.YMetres;
        string? looksLike = difference.LengthMetres > 100
            ? FrameSuspicion.Explain(conversion.Crs, where.Projected, conversion.Crs.Unproject(expected), 100)
            : null;
        return new CheckPointTest(null, known, expected, where.Projected, difference, x, y, Math.Sqrt((known.StandardDeviationMetres * known.StandardDeviationMetres) + (deviationMetres * deviationMetres)), looksLike);
    }
}

/// <summary>A check-point test.</summary>
/// <param name="Refusal">Why there is none.</param>
/// <param name="Known">The mark.</param>
/// <param name="Expected">Where the adjustment puts the mark of the drawings, projected CRS.</param>
/// <param name="Measured">Where it was measured, projected CRS.</param>
/// <param name="Difference">Measured minus expected, with its test.</param>
/// <param name="FirstMetres">Difference along the site's first axis, metres.</param>
/// <param name="SecondMetres">Difference along the site's second axis, metres.</param>
/// <param name="DeviationMetres">Standard deviation of one coordinate of the difference, metres.</param>
/// <param name="LooksLike">What a large difference looks like; null where it looks like nothing known.</param>
public sealed record CheckPointTest(
    string? Refusal, ControlPoint? Known, ProjectedCoordinate Expected, ProjectedCoordinate Measured, ControlPointMovement? Difference,
    double FirstMetres, double SecondMetres, double DeviationMetres, string? LooksLike)
{
    internal static CheckPointTest Refused(string reason) => new(reason, null, default, default, null, 0, 0, 0, null);
}
