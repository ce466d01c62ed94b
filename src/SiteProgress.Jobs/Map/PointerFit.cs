using MathNet.Numerics.LinearAlgebra;
using SiteProgress.Core.Coordinates;

namespace SiteProgress.Jobs.Map;

/// <summary>
/// Site-grid coordinates as polynomials in latitude and longitude over a small area, for the read-out under the pointer only.
/// With u = (longitude - centre) / span and v = (latitude - centre) / span, the terms stand in the order 1, u, v, u², uv, v², …
/// </summary>
/// <param name="Axes">Names of the two axes.</param>
/// <param name="CentreLatitude">Latitude of the middle, degrees.</param>
/// <param name="CentreLongitude">Longitude of the middle, degrees.</param>
/// <param name="SpanLatitude">Half the height of the fitted area, degrees.</param>
/// <param name="SpanLongitude">Half the width of the fitted area, degrees.</param>
/// <param name="First">Terms of the first axis, metres.</param>
/// <param name="Second">Terms of the second axis, metres.</param>
/// <param name="LargestErrorMetres">Largest distance to the exact transformation on a denser grid of points, metres.</param>
internal sealed record PointerFit(
    IReadOnlyList<string> Axes,
    double CentreLatitude,
    double CentreLongitude,
    double SpanLatitude,
    double SpanLongitude,
    IReadOnlyList<double> First,
    IReadOnlyList<double> Second,
    double LargestErrorMetres)
{
    private const int Fitted = 11;
    private const int Tried = 23;
    private const double GoodMetres = 0.0001;
    private const double WorstMetres = 0.001;

    // A single pile has no extent; about a hundred metres around it are wanted all the same.
    private const double LeastSpanDegrees = 0.001;

    /// <summary>
    /// Fits by least squares to points transformed exactly, over the area enlarged by a fifth. The lowest degree that keeps to
    /// a tenth of a millimetre is taken, at most the fourth.
    /// </summary>
    /// <param name="service">The exact way between the frames.</param>
    /// <param name="axes">Names of the site's axes.</param>
    /// <param name="south">Southernmost latitude of the piles, degrees.</param>
    /// <param name="north">Northernmost latitude, degrees.</param>
    /// <param name="west">Westernmost longitude, degrees.</param>
    /// <param name="east">Easternmost longitude, degrees.</param>
    /// <returns>Null where even the fourth degree is off by more than a millimetre, or the area cannot be transformed.</returns>
    public static PointerFit? Over(CoordinateService service, IReadOnlyList<string> axes, double south, double north, double west, double east)
    {
        PointerFit area = new(
            axes,
            (south + north) / 2,
            (west + east) / 2,
            Math.Max((north - south) / 2 * 1.2, LeastSpanDegrees),
            Math.Max((east - west) / 2 * 1.2, LeastSpanDegrees),
            [], [], double.NaN);
        PointerFit? best = null;
        for (int degree = 2; degree <= 4; degree++)
        {
            if (area.Fit(service, degree) is not { } fit) return null;
            if (best is null || fit.LargestErrorMetres < best.LargestErrorMetres) best = fit;
            if (best.LargestErrorMetres <= GoodMetres) break;
        }

        return best!.LargestErrorMetres <= WorstMetres ? best : null;
    }

    /// <summary>The polynomials at a point: what the page computes.</summary>
    public SiteCoordinate At(GeographicCoordinate point)
    {
        int degree = Degree(First.Count);
        double[] terms = Terms((point.LongitudeDegrees - CentreLongitude) / SpanLongitude, (point.LatitudeDegrees - CentreLatitude) / SpanLatitude, degree);
        return new SiteCoordinate(terms.Zip(First, (term, factor) => term * factor).Sum(), terms.Zip(Second, (term, factor) => term * factor).Sum());
    }

    private PointerFit? Fit(CoordinateService service, int degree)
    {
        (GeographicCoordinate[] points, SiteCoordinate[] exact) = Grid(service, Fitted);
        if (exact.Any(point => !double.IsFinite(point.XMetres) || !double.IsFinite(point.YMetres))) return null;
        Matrix<double> terms = Matrix<double>.Build.DenseOfRowArrays(points.Select(point => Terms(
            (point.LongitudeDegrees - CentreLongitude) / SpanLongitude, (point.LatitudeDegrees - CentreLatitude) / SpanLatitude, degree)));
        var decomposed = terms.QR();
        PointerFit fit = this with
        {
            First = decomposed.Solve(Vector<double>.Build.DenseOfEnumerable(exact.Select(point => point.XMetres))).ToArray(),
            Second = decomposed.Solve(Vector<double>.Build.DenseOfEnumerable(exact.Select(point => point.YMetres))).ToArray(),
        };
        return fit with { LargestErrorMetres = fit.LargestError(service) };
    }

    private double LargestError(CoordinateService service)
    {
        (GeographicCoordinate[] points, SiteCoordinate[] exact) = Grid(service, Tried);
        return points.Zip(exact, (point, at) =>
        {
            SiteCoordinate fitted = At(point);
            return double.Hypot(fitted.XMetres - at.XMetres, fitted.YMetres - at.YMetres);
        }).Max();
    }

    private (GeographicCoordinate[] Points, SiteCoordinate[] Exact) Grid(CoordinateService service, int perSide)
    {
        GeographicCoordinate[] points = new GeographicCoordinate[perSide * perSide];
        for (int index = 0; index < points.Length; index++)
        {
            double u = (2.0 * (index % perSide) / (perSide - 1)) - 1;
            double v = (2.0 * (index / perSide) / (perSide - 1)) - 1;
            points[index] = new GeographicCoordinate(CentreLatitude + (v * SpanLatitude), CentreLongitude + (u * SpanLongitude));
        }

        SiteCoordinate[] exact = new SiteCoordinate[points.Length];
        service.GeographicToSite(points, exact);
        return (points, exact);
    }

    private static double[] Terms(double u, double v, int degree)
    {
        List<double> terms = [];
        for (int total = 0; total <= degree; total++)
        {
            for (int powerOfV = 0; powerOfV <= total; powerOfV++) terms.Add(Math.Pow(u, total - powerOfV) * Math.Pow(v, powerOfV));
        }

        return [.. terms];
    }

    private static int Degree(int terms) => terms switch { 3 => 1, 6 => 2, 10 => 3, 15 => 4, _ => throw new InvalidOperationException($"{terms} terms make no whole degree.") };
}
