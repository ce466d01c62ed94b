namespace SiteProgress.Core.Coordinates.Definitions;

/// <summary>Reads a projected CRS from WKT 2 (ISO 19162), the form that current software writes, into the same definition as WKT 1.</summary>
internal static class Wkt2Reader
{
    private const string Polar = "Polar_Stereographic";

    /// <summary>Methods by EPSG code, with the name they have in WKT 1.</summary>
    private static readonly Dictionary<int, string> MethodByCode = new()
    {
        [9807] = "Transverse_Mercator", [9808] = "Transverse_Mercator_South_Orientated",
        [9801] = "Lambert_Conformal_Conic_1SP", [9802] = "Lambert_Conformal_Conic_2SP", [9803] = "Lambert_Conformal_Conic_2SP_Belgium",
        [1051] = "Lambert_Conformal_Conic_2SP_Michigan", [9804] = "Mercator_1SP", [9805] = "Mercator_2SP", [1024] = "Popular_Visualisation_Pseudo_Mercator",
        [9809] = "Oblique_Stereographic", [9810] = Polar, [9829] = Polar, [9812] = "Hotine_Oblique_Mercator", [9815] = "Hotine_Oblique_Mercator_Azimuth_Center",
        [9819] = "Krovak", [1041] = "Krovak", [9822] = "Albers_Conic_Equal_Area", [9820] = "Lambert_Azimuthal_Equal_Area", [1027] = "Lambert_Azimuthal_Equal_Area",
        [9835] = "Cylindrical_Equal_Area", [9834] = "Cylindrical_Equal_Area", [9806] = "Cassini_Soldner", [9833] = "Hyperbolic_Cassini_Soldner",
        [9818] = "Polyconic", [9811] = "New_Zealand_Map_Grid", [9840] = "Orthographic", [1130] = "Local_Orthographic", [1119] = "Equidistant_Conic", [9827] = "Bonne",
    };

    /// <summary>The same by the names ISO 19162 examples and the register use, in case a text gives no code.</summary>
    private static readonly Dictionary<string, int> CodeByName = new(StringComparer.OrdinalIgnoreCase)
    {
        ["Transverse Mercator"] = 9807, ["Transverse Mercator (South Orientated)"] = 9808, ["Lambert Conic Conformal (1SP)"] = 9801,
        ["Lambert Conic Conformal (2SP)"] = 9802, ["Lambert Conic Conformal (2SP Belgium)"] = 9803, ["Lambert Conic Conformal (2SP Michigan)"] = 1051,
        ["Mercator (variant A)"] = 9804, ["Mercator (variant B)"] = 9805, ["Popular Visualisation Pseudo Mercator"] = 1024, ["Oblique Stereographic"] = 9809,
        ["Polar Stereographic (variant A)"] = 9810, ["Polar Stereographic (variant B)"] = 9829, ["Hotine Oblique Mercator (variant A)"] = 9812,
        ["Hotine Oblique Mercator (variant B)"] = 9815, ["Krovak"] = 9819, ["Krovak (North Orientated)"] = 1041, ["Albers Equal Area"] = 9822,
        ["Lambert Azimuthal Equal Area"] = 9820, ["Lambert Azimuthal Equal Area (Spherical)"] = 1027, ["Lambert Cylindrical Equal Area"] = 9835,
        ["Lambert Cylindrical Equal Area (Spherical)"] = 9834, ["Cassini-Soldner"] = 9806, ["Hyperbolic Cassini-Soldner"] = 9833, ["American Polyconic"] = 9818,
        ["New Zealand Map Grid"] = 9811, ["Orthographic"] = 9840, ["Local Orthographic"] = 1130, ["Equidistant Conic"] = 1119, ["Bonne"] = 9827,
    };

    /// <summary>Parameters by name, with the name they have in WKT 1; a name before the bar is for methods that count from a centre.</summary>
    private static readonly Dictionary<string, string> ParameterByName = new(StringComparer.OrdinalIgnoreCase)
    {
        ["Latitude of natural origin"] = "latitude_of_center|latitude_of_origin", ["Longitude of natural origin"] = "longitude_of_center|central_meridian",
        ["Latitude of false origin"] = "latitude_of_center|latitude_of_origin", ["Longitude of false origin"] = "longitude_of_center|central_meridian",
        ["Latitude of projection centre"] = "latitude_of_center", ["Longitude of projection centre"] = "longitude_of_center",
        ["Longitude of origin"] = "longitude_of_center|central_meridian", ["Latitude of standard parallel"] = "latitude_of_origin",
        ["Latitude of 1st standard parallel"] = "standard_parallel_1", ["Latitude of 2nd standard parallel"] = "standard_parallel_2",
        ["Latitude of pseudo standard parallel"] = "pseudo_standard_parallel_1",
        ["Scale factor at natural origin"] = "scale_factor", ["Scale factor on initial line"] = "scale_factor", ["Scale factor on pseudo standard parallel"] = "scale_factor",
        ["Scale factor at projection centre"] = "scale_factor", ["Azimuth of initial line"] = "azimuth", ["Azimuth at projection centre"] = "azimuth",
        ["Co-latitude of cone axis"] = "azimuth", ["Angle from Rectified to Skew Grid"] = "rectified_grid_angle", ["Ellipsoid scaling factor"] = "ellipsoid_scaling_factor",
        ["False easting"] = "false_easting", ["False northing"] = "false_northing", ["Easting at projection centre"] = "false_easting",
        ["Northing at projection centre"] = "false_northing", ["Easting at false origin"] = "false_easting", ["Northing at false origin"] = "false_northing",
    };

    private static readonly HashSet<string> CountedFromCentre =
        ["Lambert_Azimuthal_Equal_Area", "Albers_Conic_Equal_Area", "Equidistant_Conic", "Krovak", "Local_Orthographic"];

    public static (ProjectedDefinition? Definition, string? Reason) Read(WktNode root)
    {
        var geographic = root.Child("BASEGEOGCRS", "BASEGEODCRS");
        var datum = geographic?.Child("DATUM", "ENSEMBLE", "GEODETICDATUM", "TRF");
        if (geographic is null || datum?.Child("ELLIPSOID", "SPHEROID") is not { Numbers.Count: >= 2 } ellipsoid)
            return (null, $"{root.Name} does not say which datum and ellipsoid it is on (BASEGEOGCRS with DATUM and ELLIPSOID).");
        if (root.Child("CONVERSION", "DERIVINGCONVERSION") is not { } conversion || conversion.Child("METHOD") is not { } method)
            return (null, $"{root.Name} does not name its projection method (CONVERSION with METHOD).");
        if ((Unit(root.Child("AXIS"), "LENGTHUNIT", "UNIT") ?? Unit(root, "LENGTHUNIT", "UNIT")) is not { } unit)
            return (null, $"{root.Name} does not give its unit of length (LENGTHUNIT).");
        var (axes, stated, axisReason) = DefinitionReader.Axes(root);
        if (axisReason is not null) return (null, axisReason);

        var code = Code(method) ?? CodeByName.GetValueOrDefault(method.Name);
        var name = MethodByCode.GetValueOrDefault(code, method.Name);
        var (parameters, reason) = Parameters(root.Name, conversion, name);
        if (parameters is null) return (null, reason);
        if (code == 9829) parameters["scale_factor"] = 1;
        return (new(
            root.Name, Authority(root), Code(root), geographic.Name, Authority(geographic) == "EPSG" ? Code(geographic) : null, datum.Name,
            Ellipsoid.FromInverseFlattening(ellipsoid.Name, ellipsoid.Numbers[0] * (Unit(ellipsoid, "LENGTHUNIT", "UNIT")?.Metres ?? 1), ellipsoid.Numbers[1]),
            Meridian(geographic), geographic.Child("PRIMEM")?.Child("ANGLEUNIT", "UNIT")?.Name ?? "degree", unit, axes[0], axes[1], stated, name, parameters, null), null);
    }

    private static (Dictionary<string, double>? Parameters, string? Reason) Parameters(string system, WktNode conversion, string method)
    {
        var parameters = new Dictionary<string, double>(StringComparer.Ordinal);
        foreach (var parameter in conversion.All("PARAMETER"))
        {
            if (!ParameterByName.TryGetValue(parameter.Name, out var name) || parameter.Numbers.Count == 0)
                return (null, $"{system} gives the parameter {parameter.Name}, which is not known here.");
            var names = name.Split('|');
            parameters[CountedFromCentre.Contains(method) ? names[0] : names[^1]] = parameter.Numbers[0] * Factor(parameter);
        }

        return (parameters, null);
    }

    /// <summary>What turns a parameter's number into degrees, metres or a ratio.</summary>
    private static double Factor(WktNode parameter) =>
        parameter.Child("ANGLEUNIT") is { Numbers.Count: > 0 } angle ? DefinitionReader.ExactAngle(angle.Numbers[0]) is var radians && radians == Math.PI / 180 ? 1 : radians * 180 / Math.PI
        : Unit(parameter, "LENGTHUNIT")?.Metres ?? (parameter.Child("SCALEUNIT") is { Numbers.Count: > 0 } scale ? scale.Numbers[0] : 1);

    private static PrimeMeridian Meridian(WktNode geographic)
    {
        if (geographic.Child("PRIMEM") is not { Numbers.Count: > 0 } meridian) return new("Greenwich", 0);
        return new(meridian.Name, meridian.Numbers[0] * Factor(meridian));
    }

    private static LinearUnit? Unit(WktNode? parent, params ReadOnlySpan<string> keywords) =>
        parent?.Child(keywords) is { Numbers.Count: > 0 } unit && unit.Numbers[0] > 0 ? new(unit.Name, DefinitionReader.ExactLength(unit.Numbers[0])) : null;

    private static string Authority(WktNode node) => node.Child("ID") is { Texts.Count: > 0 } id ? id.Texts[0] : "";

    private static int? Code(WktNode node) =>
        node.Child("ID") is { Texts.Count: > 0, Numbers.Count: > 0 } id && id.Numbers[0] == (int)id.Numbers[0] ? (int)id.Numbers[0] : null;
}
