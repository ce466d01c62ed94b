namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>What all methods share: degrees and radians, the prime meridian, false origin, and the loop over points.</summary>
internal abstract class Projection(ProjectionFrame frame) : IProjection
{
    protected const double RadiansPerDegree = Math.PI / 180;
    protected const double DegreesPerRadian = 180 / Math.PI;

    /// <summary>A right angle and what rounding may add to it.</summary>
    private const double LargestLatitude = Math.PI / 2 + 1e-12;

    protected ProjectionFrame Frame { get; } = frame;

    public abstract string MethodName { get; }

    public virtual void Forward(ReadOnlySpan<GeographicCoordinate> geographic, Span<ProjectedCoordinate> projected)
    {
        RequireSameLength(geographic.Length, projected.Length);
        for (var i = 0; i < geographic.Length; i++)
        {
            var latitude = geographic[i].LatitudeDegrees * RadiansPerDegree;
            var longitude = WrapRadians((geographic[i].LongitudeDegrees - Frame.OriginFromGreenwichDegrees) * RadiansPerDegree);
            var (east, north) = Math.Abs(latitude) <= LargestLatitude ? Project(latitude, longitude) : (double.NaN, double.NaN);
            projected[i] = Whole(Frame.FalseEastingMetres + east, Frame.FalseNorthingMetres + north);
        }
    }

    public virtual void Inverse(ReadOnlySpan<ProjectedCoordinate> projected, Span<GeographicCoordinate> geographic)
    {
        RequireSameLength(projected.Length, geographic.Length);
        for (var i = 0; i < projected.Length; i++)
        {
            var (latitude, longitude) = Unproject(
                projected[i].EastingMetres - Frame.FalseEastingMetres, projected[i].NorthingMetres - Frame.FalseNorthingMetres);
            var degrees = WrapDegrees(longitude * DegreesPerRadian + Frame.OriginFromGreenwichDegrees);
            geographic[i] = Math.Abs(latitude) <= LargestLatitude && double.IsFinite(degrees)
                ? new(latitude * DegreesPerRadian, degrees)
                : new(double.NaN, double.NaN);
        }
    }

    /// <summary>Radians, longitude from the projection's own meridian, to metres from the false origin's zero.</summary>
    protected abstract (double East, double North) Project(double latitude, double longitude);

    /// <summary>Metres without false origin to radians, longitude from the projection's own meridian.</summary>
    protected abstract (double Latitude, double Longitude) Unproject(double east, double north);

    protected static void RequireSameLength(int given, int room)
    {
        if (given != room) throw new ArgumentException($"{given} points given and room for {room}; the two spans must have the same length.");
    }

    protected static ProjectedCoordinate Whole(double east, double north) =>
        double.IsFinite(east) && double.IsFinite(north) ? new(east, north) : new(double.NaN, double.NaN);

    protected static double WrapRadians(double angle) =>
        Math.Abs(angle) <= Math.PI ? angle : Math.IEEERemainder(angle, 2 * Math.PI);

    protected static double WrapDegrees(double angle)
    {
        if (Math.Abs(angle) < 180) return angle;
        var wrapped = Math.IEEERemainder(angle, 360);
        return wrapped <= -180 ? 180 : wrapped;
    }
}

/// <summary>Where a projection's plane lies: which ellipsoid, which meridian, which false origin.</summary>
/// <param name="Ellipsoid">The datum's ellipsoid.</param>
/// <param name="OriginFromGreenwichDegrees">The projection's own meridian, degrees east of Greenwich.</param>
/// <param name="FalseEastingMetres">Easting given to the origin.</param>
/// <param name="FalseNorthingMetres">Northing given to the origin.</param>
internal sealed record ProjectionFrame(
    Ellipsoid Ellipsoid, double OriginFromGreenwichDegrees, double FalseEastingMetres, double FalseNorthingMetres);
