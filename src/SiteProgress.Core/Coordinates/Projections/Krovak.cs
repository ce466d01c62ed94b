namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>Krovak's oblique conformal conic (EPSG 9819 and 1041), used in Czechia and Slovakia.</summary>
/// <remarks>
/// IOGP Guidance Note 7-2, Krovak. The original counts southings and westings; here both methods give east and north positive,
/// and the sense of the axes is the coordinate system's affair.
/// </remarks>
internal sealed class Krovak : Projection
{
    /// <summary>
    /// Colatitude of the cone's axis as the EPSG data set states it today, 30°17'17.30311". Older tables print one digit less
    /// (30.28813972 degrees), which moves points by 3.4 mm.
    /// </summary>
    private const double StatedColatitudeDegrees = 30 + 17 / 60.0 + 17.30311 / 3600;

    private readonly IsometricLatitude isometric;
    private readonly double b;
    private readonly double logT;
    private readonly double cone;
    private readonly double scale;
    private readonly double sinAxis;
    private readonly double cosAxis;

    public Krovak(ProjectionFrame frame, double latitudeOfCentreDegrees, double colatitudeDegrees, double pseudoParallelDegrees, double scaleFactor)
        : base(frame)
    {
        if (Math.Abs(colatitudeDegrees - StatedColatitudeDegrees) < 1e-7) colatitudeDegrees = StatedColatitudeDegrees;
        double centre = latitudeOfCentreDegrees * RadiansPerDegree, parallel = pseudoParallelDegrees * RadiansPerDegree;
        double e2 = frame.Ellipsoid.EccentricitySquared, sine = Math.Sin(centre), w = 1 - e2 * sine * sine;
        isometric = new IsometricLatitude(frame.Ellipsoid);
        b = Math.Sqrt(1 + e2 * Math.Pow(Math.Cos(centre), 4) / (1 - e2));
        logT = Math.Atanh(sine / b) - b * IsometricLatitude.Exact(centre, frame.Ellipsoid.Eccentricity);
        cone = Math.Sin(parallel);
        var radius = scaleFactor * frame.Ellipsoid.SemiMajorMetres * Math.Sqrt(1 - e2) / w / Math.Tan(parallel);
        scale = radius * Math.Exp(cone * Math.Atanh(cone));
        (sinAxis, cosAxis) = Math.SinCos(colatitudeDegrees * RadiansPerDegree);
    }

    public override string MethodName => "Krovak";

    protected override (double East, double North) Project(double latitude, double longitude)
    {
        var psi = b * isometric.FromGeodetic(latitude) + logT;
        double sinU = Math.Tanh(psi), cosU = 1 / Math.Cosh(psi);
        var (sinV, cosV) = Math.SinCos(-b * longitude);
        var sinT = cosAxis * sinU + sinAxis * cosU * cosV;
        var angle = cone * Math.Atan2(cosU * sinV, (cosAxis * sinT - sinU) / sinAxis);
        var radius = scale * Math.Exp(-cone * Math.Atanh(sinT));
        return (-radius * Math.Sin(angle), -radius * Math.Cos(angle));
    }

    protected override (double Latitude, double Longitude) Unproject(double east, double north)
    {
        var radius = Math.Sqrt(east * east + north * north);
        if (radius == 0) return (double.NaN, double.NaN);
        var (sinD, cosD) = Math.SinCos(Math.Atan2(-east, -north) / cone);
        var isometricT = -Math.Log(radius / scale) / cone;
        double sinT = Math.Tanh(isometricT), cosT = 1 / Math.Cosh(isometricT);
        double sinU = cosAxis * sinT - sinAxis * cosT * cosD, y = cosT * sinD, x = sinAxis * sinT + cosAxis * cosT * cosD;
        var psi = Math.Asinh(sinU / Math.Sqrt(x * x + y * y));
        return (isometric.ToGeodetic((psi - logT) / b), -Math.Atan2(y, x) / b);
    }
}
