namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>Bonne (EPSG 9827) and, with the parallel at the equator, the sinusoidal projection.</summary>
/// <remarks>J. P. Snyder, Map Projections: A Working Manual, sections 19 and 30.</remarks>
internal sealed class Bonne : Projection
{
    private readonly MeridianDistance meridian;
    private readonly double parallel;
    private readonly double apex;
    private readonly double start;

    public Bonne(ProjectionFrame frame, double parallelDegrees)
        : base(frame)
    {
        meridian = new MeridianDistance(frame.Ellipsoid);
        parallel = parallelDegrees * RadiansPerDegree;
        start = meridian.Metres(parallel);
        apex = parallel == 0 ? double.PositiveInfinity : frame.Ellipsoid.NormalRadiusMetres(parallel) / Math.Tan(parallel);
    }

    public override string MethodName => parallel == 0 ? "Sinusoidal" : "Bonne";

    protected override (double East, double North) Project(double latitude, double longitude)
    {
        var width = Frame.Ellipsoid.NormalRadiusMetres(latitude) * Math.Cos(latitude);
        var up = meridian.Metres(latitude) - start;
        if (parallel == 0) return (width * longitude, up);
        var radius = apex - up;
        if (radius == 0) return (0, apex);
        var (sin, cos) = Math.SinCos(width * longitude / radius);
        return (radius * sin, apex - radius * cos);
    }

    protected override (double Latitude, double Longitude) Unproject(double east, double north)
    {
        if (parallel == 0) return Back(meridian.Latitude(north), east);
        var sign = Math.Sign(parallel);
        double x = sign * east, y = sign * (apex - north), radius = sign * Math.Sqrt(x * x + y * y);
        return Back(meridian.Latitude(apex - radius + start), Math.Atan2(x, y) * radius);
    }

    private (double Latitude, double Longitude) Back(double latitude, double alongParallel)
    {
        var width = Frame.Ellipsoid.NormalRadiusMetres(latitude) * Math.Cos(latitude);
        if (Math.Abs(latitude) > Math.PI / 2 + 1e-9 || Math.Abs(alongParallel) > width * (Math.PI + 1e-9)) return (double.NaN, double.NaN);
        return (latitude, width < 1e-6 ? 0 : alongParallel / width);
    }
}
