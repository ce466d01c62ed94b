using SiteProgress.Core.Coordinates.Projections;

namespace SiteProgress.Core.Coordinates.Definitions;

/// <summary>Makes the projection a definition names, or says why it is refused.</summary>
internal static class ProjectionFactory
{
    private const string Meridian = "central_meridian";
    private const string Origin = "latitude_of_origin";
    private const string Centre = "latitude_of_center";
    private const string CentreMeridian = "longitude_of_center";
    private const string Scale = "scale_factor";
    private const string Parallel1 = "standard_parallel_1";
    private const string Parallel2 = "standard_parallel_2";

    private static readonly Dictionary<string, Func<ProjectionArguments, IProjection?>> Methods = new(StringComparer.OrdinalIgnoreCase)
    {
        ["Transverse_Mercator"] = a => new TransverseMercator(a.Frame(Meridian), a[Origin], a[Scale]),
        ["Transverse_Mercator_South_Orientated"] = a => new TransverseMercator(a.MirroredFrame(Meridian), a[Origin], a[Scale]),
        ["Lambert_Conformal_Conic_1SP"] = a => LambertConformalConic.OneParallel(a.Frame(Meridian), a[Origin], a[Scale]),
        ["Lambert_Conformal_Conic_2SP"] = a => LambertConformalConic.TwoParallels(a.Frame(Meridian), a[Origin], a[Parallel1], a[Parallel2]),
        ["Lambert_Conformal_Conic_2SP_Belgium"] = a => LambertConformalConic.TwoParallels(
            a.Frame(Meridian), a[Origin], a[Parallel1], a[Parallel2], turn: LambertConformalConic.BelgianTurnRadians),
        ["Lambert_Conformal_Conic_2SP_Michigan"] = a => LambertConformalConic.TwoParallels(
            a.Frame(Meridian), a[Origin], a[Parallel1], a[Parallel2], a["ellipsoid_scaling_factor"]),
        ["Mercator_1SP"] = MercatorA,
        ["Mercator_2SP"] = a => Mercator.TrueAlong(a.Frame(Meridian), a[Parallel1]),
        ["Popular_Visualisation_Pseudo_Mercator"] = a => new Mercator(a.Frame(Meridian), a.Optional(Scale, 1), onSphere: true),
        ["Oblique_Stereographic"] = a => new ObliqueStereographic(a.Frame(Meridian), a[Origin], a[Scale]),
        ["Polar_Stereographic"] = Polar,
        ["Hotine_Oblique_Mercator"] = a => Hotine(a, fromCentre: false),
        ["Hotine_Oblique_Mercator_Azimuth_Center"] = a => Hotine(a, fromCentre: true),
        ["Krovak"] = KrovakOf,
        ["Albers_Conic_Equal_Area"] = a => AlbersEqualArea.Create(a.Frame(CentreMeridian), a[Centre], a[Parallel1], a[Parallel2]),
        ["Lambert_Azimuthal_Equal_Area"] = a => new LambertAzimuthalEqualArea(a.Frame(CentreMeridian), a[Centre]),
        ["Cylindrical_Equal_Area"] = a => new CylindricalEqualArea(a.Frame(Meridian), a[Parallel1]),
        ["Cassini_Soldner"] = a => new CassiniSoldner(a.Frame(Meridian), a[Origin], isHyperbolic: false),
        ["Hyperbolic_Cassini_Soldner"] = a => new CassiniSoldner(a.Frame(Meridian), a[Origin], isHyperbolic: true),
        ["Polyconic"] = a => new AmericanPolyconic(a.Frame(Meridian), a[Origin]),
        ["New_Zealand_Map_Grid"] = a => new NewZealandMapGrid(a.Frame(Meridian), a[Origin]),
        ["Orthographic"] = a => new LocalOrthographic(a.Frame(Meridian), a[Origin], 0, 1),
        ["Local_Orthographic"] = a => new LocalOrthographic(a.Frame(CentreMeridian), a[Centre], a["azimuth"], a[Scale]),
        ["Equidistant_Conic"] = a => EquidistantConic.Create(a.Frame(CentreMeridian), a[Centre], a[Parallel1], a[Parallel2]),
        ["Sinusoidal"] = a => new Bonne(a.Frame(CentreMeridian), 0),
        ["Bonne"] = a => new Bonne(a.Frame(Meridian), a[Parallel1]),
    };

    public static (IProjection? Projection, string? Reason) Create(ProjectedDefinition definition)
    {
        if (!Methods.TryGetValue(definition.Method, out var make))
            return (null, $"{definition.Name} uses the projection method {definition.Method.Replace('_', ' ')}, which is not computed here to survey accuracy.");
        var arguments = new ProjectionArguments(definition);
        try
        {
            var projection = make(arguments);
            if (projection is null) return (null, $"{definition.Name} gives latitudes with which {definition.Method.Replace('_', ' ')} cannot be computed.");
            return arguments.ReasonAgainstRest() is { } rest ? (null, rest) : (projection, null);
        }
        catch (MissingParameterException missing)
        {
            return (null, $"{definition.Name} does not give the parameter {missing.Message}, which its projection method needs.");
        }
    }

    private static Mercator MercatorA(ProjectionArguments a)
    {
        // WKT 1 has no name for the web's Mercator; the table marks it by an extension that gives the ellipsoid two equal radii and no shift.
        var onSphere = a.Definition.Extension is { } extension
            && extension.Contains("+proj=merc", StringComparison.Ordinal) && extension.Contains("+nadgrids=@null", StringComparison.Ordinal);
        return new(a.Frame(Meridian), a[Scale], onSphere);
    }

    private static PolarStereographic? Polar(ProjectionArguments a)
    {
        // WKT 1 writes both variants alike: a latitude of 90 degrees means a scale at the pole, any other is the parallel true to scale.
        double latitude = a[Origin], scale = a[Scale];
        if (latitude == 0) return null;
        if (Math.Abs(Math.Abs(latitude) - 90) < 1e-9) return PolarStereographic.ScaleAtPole(a.Frame(Meridian), Math.Sign(latitude), scale);
        return Math.Abs(scale - 1) < 1e-12 ? PolarStereographic.TrueAlong(a.Frame(Meridian), latitude) : null;
    }

    private static IProjection? Hotine(ProjectionArguments a, bool fromCentre)
    {
        double latitude = a[Centre], azimuth = a["azimuth"], rectified = a["rectified_grid_angle"], scale = a[Scale];
        if (Math.Abs(latitude) > 89.9 || Math.Abs(latitude) < 1e-9) return null;
        return Math.Abs(azimuth - 90) < 1e-9 && Math.Abs(rectified - 90) < 1e-9 && fromCentre
            ? new SwissObliqueMercator(a.Frame(CentreMeridian), latitude, scale)
            : new HotineObliqueMercator(a.Frame(CentreMeridian), latitude, azimuth, rectified, scale, fromCentre);
    }

    private static Krovak KrovakOf(ProjectionArguments a)
    {
        var southWest = a.Definition.FirstAxis.Direction is AxisDirection.South or AxisDirection.West;
        return new(southWest ? a.MirroredFrame(CentreMeridian) : a.Frame(CentreMeridian), a[Centre], a["azimuth"], a["pseudo_standard_parallel_1"], a[Scale]);
    }
}
