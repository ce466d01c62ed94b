using System.Globalization;
using Npgsql;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Access;

namespace SiteProgress.Jobs.SiteGrid;

/// <summary>The line between two points: on the site grid, on the projected CRS, on the ellipsoid and on the ground.</summary>
public sealed class MeasureDistance(NpgsqlDataSource store)
{
    /// <summary>Measures a line.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="from">One end, in any frame.</param>
    /// <param name="to">The other end, in any frame.</param>
    /// <param name="heightMetres">Mean height of the line above the ellipsoid, metres.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>The line, or why there is none; null before an adjustment is adopted.</returns>
    [Needs(Right.See)]
    public async Task<MeasuredLine?> RunAsync(Permit permit, RecordedPosition from, RecordedPosition to, double heightMetres, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        if (await new ConvertPoints(store).RunAsync(permit, [from, to], cancellation) is not { } ends) return null;
        if (ends.Points[0].Where is not { } one) return MeasuredLine.Refused($"First point: {ends.Points[0].Refusal}");
        if (ends.Points[1].Where is not { } two) return MeasuredLine.Refused($"Second point: {ends.Points[1].Refusal}");
        double east = two.Projected.EastingMetres - one.Projected.EastingMetres, north = two.Projected.NorthingMetres - one.Projected.NorthingMetres;
        double x = two.Site.XMetres - one.Site.XMetres, y = two.Site.YMetres - one.Site.YMetres;
        if (Math.Sqrt((east * east) + (north * north)) < 1e-6) return MeasuredLine.Refused("The two points are the same.");
        double bearing = Turn(Math.Atan2(east, north) * 180 / Math.PI);
        return new MeasuredLine(null, one, two, Math.Sqrt((x * x) + (y * y)), GroundDistance.Between(ends.Crs, one.Projected, two.Projected, heightMetres), bearing, heightMetres)
        {
            Caution = heightMetres is < -500 or > 9000 ? string.Create(CultureInfo.InvariantCulture, $"The height {heightMetres} m is not one of a site on the earth.") : null,
        };
    }

    private static double Turn(double degrees) => degrees < 0 ? degrees + 360 : degrees;
}

/// <summary>A measured line.</summary>
/// <param name="Refusal">Why there is none.</param>
/// <param name="From">One end in all frames.</param>
/// <param name="To">The other end.</param>
/// <param name="SiteMetres">Length on the site grid.</param>
/// <param name="Ground">Length on the projected CRS, the ellipsoid and the ground; null where the projection is not conformal or the line is longer than 100 km.</param>
/// <param name="GridBearingDegrees">Bearing from the north of the projected CRS, clockwise.</param>
/// <param name="HeightMetres">Mean height above the ellipsoid used for the ground.</param>
public sealed record MeasuredLine(
    string? Refusal, PointInFrames? From, PointInFrames? To, double SiteMetres, GroundDistance? Ground, double GridBearingDegrees, double HeightMetres)
{
    /// <summary>What to look at although it was measured.</summary>
    public string? Caution { get; init; }

    internal static MeasuredLine Refused(string reason) => new(reason, null, null, 0, null, 0, 0);
}
