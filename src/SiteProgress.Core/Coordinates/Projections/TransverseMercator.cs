using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>Transverse Mercator (EPSG methods 9807 and 9808) to full double precision.</summary>
/// <remarks>
/// Krüger's series to order six (see <see cref="KruegerSeries"/>), the same formulas as IOGP Guidance Note 7-2, section 3.5.3.1 (JHS),
/// carried two orders further. Refused (NaN) beyond about 59 degrees of longitude from the central meridian at the equator, where the
/// series would leave more than 0.01 mm. Within 20 degrees four points are computed at once; which way a point goes depends on the point
/// alone, so its digits are the same in any batch.
/// </remarks>
internal sealed class TransverseMercator : Projection
{
    /// <summary>Largest easting on the unit sphere for which order six holds 0.01 mm; see remarks.</summary>
    private const double LargestEta = 1.3;

    private readonly double eccentricity;
    private readonly double radius;
    private readonly double northOfOrigin;
    private readonly KruegerSeries series;
    private readonly FastTransverseMercator fast;

    public TransverseMercator(ProjectionFrame frame, double latitudeOfOriginDegrees, double scaleFactor)
        : base(frame)
    {
        eccentricity = frame.Ellipsoid.Eccentricity;
        series = new KruegerSeries(frame.Ellipsoid);
        fast = new FastTransverseMercator(frame.Ellipsoid, series);
        radius = series.RectifyingRadiusMetres * scaleFactor;
        northOfOrigin = Plane(latitudeOfOriginDegrees * RadiansPerDegree, 0).North;
    }

    public override string MethodName => "Transverse Mercator";

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public override void Forward(ReadOnlySpan<GeographicCoordinate> geographic, Span<ProjectedCoordinate> projected)
    {
        RequireSameLength(geographic.Length, projected.Length);
        var whole = geographic.Length & ~3;
        for (var i = 0; i < whole; i += 4)
            if (ForwardFour(geographic, projected, i) is var beyond && beyond != 0) ForwardBeyond(geographic, projected, i, beyond);
        if (whole == geographic.Length) return;

        // The last one to three points go through the same arithmetic, in company of copies of themselves.
        Span<GeographicCoordinate> rest = stackalloc GeographicCoordinate[4];
        Span<ProjectedCoordinate> there = stackalloc ProjectedCoordinate[4];
        rest.Fill(geographic[whole]);
        geographic[whole..].CopyTo(rest);
        if (ForwardFour(rest, there, 0) is var left && left != 0) ForwardBeyond(rest, there, 0, left);
        there[..(geographic.Length - whole)].CopyTo(projected[whole..]);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public override void Inverse(ReadOnlySpan<ProjectedCoordinate> projected, Span<GeographicCoordinate> geographic)
    {
        RequireSameLength(projected.Length, geographic.Length);
        var whole = projected.Length & ~3;
        for (var i = 0; i < whole; i += 4)
            if (InverseFour(projected, geographic, i) is var beyond && beyond != 0) InverseBeyond(projected, geographic, i, beyond);
        if (whole == projected.Length) return;
        Span<ProjectedCoordinate> rest = stackalloc ProjectedCoordinate[4];
        Span<GeographicCoordinate> there = stackalloc GeographicCoordinate[4];
        rest.Fill(projected[whole]);
        projected[whole..].CopyTo(rest);
        if (InverseFour(rest, there, 0) is var left && left != 0) InverseBeyond(rest, there, 0, left);
        there[..(projected.Length - whole)].CopyTo(geographic[whole..]);
    }

    protected override (double East, double North) Project(double latitude, double longitude)
    {
        if (Math.Abs(longitude) > Math.PI / 2) return (double.NaN, double.NaN);
        var (east, north) = Plane(latitude, longitude);
        return (east, north - northOfOrigin);
    }

    protected override (double Latitude, double Longitude) Unproject(double east, double north)
    {
        double xi = (north + northOfOrigin) / radius, eta = east / radius;
        if (!(Math.Abs(eta) <= LargestEta) || Math.Abs(xi) > Math.PI / 2 + 1e-9) return (double.NaN, double.NaN);
        var (dXi, dEta) = KruegerSeries.Sum(series.ToSphere, xi, eta);
        xi -= dXi;
        eta -= dEta;
        double sinh = Math.Sinh(eta), cos = Math.Cos(xi);
        var conformal = Math.Sin(xi) / Math.Sqrt(sinh * sinh + cos * cos);
        return (Math.Atan(ConformalLatitude.TangentToGeodetic(conformal, eccentricity)), Math.Atan2(sinh, cos));
    }

    /// <summary>Four points from position i; the answer's bits mark the lanes whose points lie beyond the fast arrangement.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private uint ForwardFour(ReadOnlySpan<GeographicCoordinate> geographic, Span<ProjectedCoordinate> projected, int i)
    {
        var (latitude, longitude) = FourPoints.Load(geographic, i);
        latitude *= RadiansPerDegree;
        longitude = (longitude - Vector256.Create(Frame.OriginFromGreenwichDegrees)) * RadiansPerDegree;
        var (xi, eta) = fast.Forward(latitude, longitude);
        FourPoints.Store(projected, i,
            Vector256.FusedMultiplyAdd(eta, Vector256.Create(radius), Vector256.Create(Frame.FalseEastingMetres)),
            Vector256.FusedMultiplyAdd(xi, Vector256.Create(radius), Vector256.Create(Frame.FalseNorthingMetres - northOfOrigin)));
        return Beyond(Within(latitude, Math.PI / 2) & Within(longitude, FastTransverseMercator.LargestLongitude));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private uint InverseFour(ReadOnlySpan<ProjectedCoordinate> projected, Span<GeographicCoordinate> geographic, int i)
    {
        var (east, north) = FourPoints.Load(projected, i);
        var perRadius = Vector256.Create(1 / radius);
        var eta = (east - Vector256.Create(Frame.FalseEastingMetres)) * perRadius;
        var xi = (north - Vector256.Create(Frame.FalseNorthingMetres - northOfOrigin)) * perRadius;
        var (latitude, longitude, tangent) = fast.Inverse(xi, eta);
        longitude = Vector256.FusedMultiplyAdd(longitude, Vector256.Create(DegreesPerRadian), Vector256.Create(Frame.OriginFromGreenwichDegrees));
        FourPoints.Store(geographic, i, latitude * DegreesPerRadian, longitude);

        // Near a pole a small easting is a wide longitude, and past the 180th meridian longitudes begin anew.
        return Beyond(Within(eta, FastTransverseMercator.LargestEta) & Within(xi, Math.PI / 2)
            & Within(tangent, FastTransverseMercator.LargestTangent) & Within(longitude, 180));
    }

    private void ForwardBeyond(ReadOnlySpan<GeographicCoordinate> geographic, Span<ProjectedCoordinate> projected, int i, uint beyond)
    {
        for (var lane = 0; lane < 4; lane++)
            if ((beyond >> lane & 1) != 0)
                base.Forward(geographic.Slice(i + FourPoints.PairOfLane[lane], 1), projected.Slice(i + FourPoints.PairOfLane[lane], 1));
    }

    private void InverseBeyond(ReadOnlySpan<ProjectedCoordinate> projected, Span<GeographicCoordinate> geographic, int i, uint beyond)
    {
        for (var lane = 0; lane < 4; lane++)
            if ((beyond >> lane & 1) != 0)
                base.Inverse(projected.Slice(i + FourPoints.PairOfLane[lane], 1), geographic.Slice(i + FourPoints.PairOfLane[lane], 1));
    }

    private static Vector256<double> Within(Vector256<double> values, double limit) =>
        Vector256.LessThanOrEqual(Vector256.Abs(values), Vector256.Create(limit));

    private static uint Beyond(Vector256<double> within) => ~within.ExtractMostSignificantBits() & 0b1111;

    private (double East, double North) Plane(double latitude, double longitude)
    {
        var conformal = ConformalLatitude.TangentFromGeodetic(Math.Tan(latitude), eccentricity);
        double cos = Math.Cos(longitude), sin = Math.Sin(longitude);
        double xi = Math.Atan2(conformal, cos), eta = Math.Asinh(sin / Math.Sqrt(conformal * conformal + cos * cos));
        if (!(Math.Abs(eta) <= LargestEta)) return (double.NaN, double.NaN);
        var (dXi, dEta) = KruegerSeries.Sum(series.ToPlane, xi, eta);
        return (radius * (eta + dEta), radius * (xi + dXi));
    }
}
