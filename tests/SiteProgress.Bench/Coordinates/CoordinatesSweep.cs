using System.Globalization;
using System.Text.RegularExpressions;
using SiteProgress.Core.Coordinates;

namespace SiteProgress.Bench.Coordinates;

/// <summary>
/// Every projected row of PostGIS's table over a grid of points inside its area of use, forward and inverse, against PROJ under the same code.
/// </summary>
public static partial class CoordinatesSweep
{
    /// <summary>Largest forward difference from PROJ at which a system counts as supported, metres.</summary>
    public const double ForwardLimitMetres = 1e-4;

    /// <summary>Largest distance after forward and inverse at which a system counts as supported, metres.</summary>
    public const double RoundTripLimitMetres = 1e-5;

    /// <summary>Systems whose difference from PROJ has a known cause that says more to a surveyor than its size.</summary>
    private static readonly Dictionary<string, string> KnownCauses = new()
    {
        ["EPSG:31300"] = "the peer leaves out the turn of 29.2985 seconds that this method has, so the comparison fails; EPSG:31370 is the same grid and is supported.",
        ["EPSG:22700"] = "the register's method is Lambert's near-conformal conic, but the table stores the conformal one.",
    };

    /// <summary>Compares the rows and returns one result for each, in their order.</summary>
    public static List<SweepResult> Run(IReadOnlyList<SpatialReferenceRow> rows, int side, ProjPeer peer)
    {
        var results = new SweepResult?[rows.Count];
        var asked = new List<(int Index, ProjectedCrs Crs, GeographicCoordinate[] Points)>();
        for (var i = 0; i < rows.Count; i++)
        {
            var made = ProjectedCrs.FromWktUnchecked(rows[i].Srid, rows[i].WellKnownText);
            if (!made.IsMade) results[i] = Refused(rows[i], made.Refusal, isFound: false);
            else if (made.Crs.AreaOfUse is not { } area) results[i] = Refused(rows[i], "its area of use is not in the register, so it cannot be compared.", isFound: false);
            else asked.Add((i, made.Crs, Grid(area, side)));
        }

        var answers = peer.Ask(["sweep"], input => Feed(input, asked.Select(a => (rows[a.Index], a.Points)))).Split('\n');
        var line = 0;
        foreach (var (index, crs, points) in asked)
        {
            if (answers[line++].StartsWith('X'))
            {
                results[index] = Refused(rows[index], "PROJ has no system of this code to compare with.", isFound: true);
                continue;
            }

            results[index] = Compare(rows[index], crs, points, answers.AsSpan(line, points.Length));
            line += points.Length;
        }

        return [.. results.Select(r => r!)];
    }

    private static void Feed(TextWriter input, IEnumerable<(SpatialReferenceRow Row, GeographicCoordinate[] Points)> systems)
    {
        foreach (var (row, points) in systems)
        {
            input.Write(Text($"S {row.Authority} {row.Code} {points.Length}\n"));
            foreach (var point in points) input.Write(Text($"{point.LatitudeDegrees:R} {point.LongitudeDegrees:R}\n"));
        }
    }

    private static SweepResult Compare(SpatialReferenceRow row, ProjectedCrs crs, GeographicCoordinate[] points, ReadOnlySpan<string> answers)
    {
        var projected = new ProjectedCoordinate[points.Length];
        var back = new GeographicCoordinate[points.Length];
        crs.Projection.Forward(points, projected);
        crs.Projection.Inverse(projected, back);
        double forward = 0, inverse = 0, roundTrip = 0, theirRoundTrip = 0;
        int compared = 0, missing = 0;
        for (var i = 0; i < points.Length; i++)
        {
            var theirs = answers[i].Split(' ').Select(cell => double.TryParse(cell, CultureInfo.InvariantCulture, out var value) ? value : double.NaN).ToArray();
            if (!double.IsFinite(theirs[0]) || !double.IsFinite(theirs[1])) continue;
            var (first, second) = crs.ToWritten(projected[i]);
            if (double.IsNaN(first))
            {
                missing++;
                continue;
            }

            compared++;
            forward = Math.Max(forward, Distance(first - theirs[0], second - theirs[1]) * crs.Unit.Metres);
            roundTrip = Math.Max(roundTrip, Ground(crs.Ellipsoid, back[i], points[i]));
            if (!double.IsFinite(theirs[2]) || !double.IsFinite(theirs[3])) continue;
            GeographicCoordinate theirBack = new(theirs[2], theirs[3]);
            inverse = Math.Max(inverse, Ground(crs.Ellipsoid, back[i], theirBack));
            theirRoundTrip = Math.Max(theirRoundTrip, Ground(crs.Ellipsoid, theirBack, points[i]));
        }

        var verdict = Verdict(compared, missing, forward, roundTrip);
        if (verdict is not null) verdict = KnownCauses.GetValueOrDefault($"{row.Authority}:{row.Code}", verdict);
        return new(row, MethodOf(row), verdict, true, compared, forward, inverse, roundTrip, theirRoundTrip);
    }

    private static string? Verdict(int compared, int missing, double forward, double roundTrip)
    {
        if (compared == 0) return "no point of its area of use could be compared with PROJ.";
        if (missing > 0) return "the projection cannot be computed over its whole area of use.";
        if (!(forward <= ForwardLimitMetres))
            return Text($"the stored definition does not reproduce the register's system; it lies up to {Length(forward)} away.");
        return roundTrip <= RoundTripLimitMetres ? null : Text($"there and back leaves up to {Length(roundTrip)} in its area of use.");
    }

    private static SweepResult Refused(SpatialReferenceRow row, string reason, bool isFound) =>
        new(row, MethodOf(row), reason, isFound, 0, double.NaN, double.NaN, double.NaN, double.NaN);

    /// <summary>A grid over the area, its edges included.</summary>
    private static GeographicCoordinate[] Grid(AreaOfUse area, int side)
    {
        var points = new GeographicCoordinate[side * side];
        for (var i = 0; i < points.Length; i++)
        {
            double up = (double)(i / side) / (side - 1), across = (double)(i % side) / (side - 1);
            var longitude = area.WestDegrees + area.WidthDegrees * across;
            points[i] = new(area.SouthDegrees + (area.NorthDegrees - area.SouthDegrees) * up, longitude > 180 ? longitude - 360 : longitude);
        }

        return points;
    }

    private static double Ground(Ellipsoid ellipsoid, GeographicCoordinate a, GeographicCoordinate b)
    {
        var latitude = b.LatitudeDegrees * Math.PI / 180;
        var north = (a.LatitudeDegrees - b.LatitudeDegrees) * Math.PI / 180 * ellipsoid.MeridianRadiusMetres(latitude);
        var east = Math.IEEERemainder(a.LongitudeDegrees - b.LongitudeDegrees, 360) * Math.PI / 180 * ellipsoid.NormalRadiusMetres(latitude) * Math.Cos(latitude);
        return Distance(north, east);
    }

    private static double Distance(double a, double b) => Math.Sqrt(a * a + b * b);

    private static string Length(double metres) => metres switch
    {
        < 1 => Text($"{metres * 1000:0.###} mm"),
        < 1000 => Text($"{metres:0.#} m"),
        _ => Text($"{metres / 1000:0} km"),
    };

    private static string MethodOf(SpatialReferenceRow row) => Method().Match(row.WellKnownText).Groups[1].Value;

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    [GeneratedRegex("PROJECTION\\[\"([^\"]*)\"")]
    private static partial Regex Method();
}
