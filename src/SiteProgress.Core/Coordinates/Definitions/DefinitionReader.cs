using System.Globalization;

namespace SiteProgress.Core.Coordinates.Definitions;

/// <summary>Reads a projected CRS from WKT 1 (OGC 01-009), the form the store's table carries; WKT 2 goes to <see cref="Wkt2Reader"/>.</summary>
internal static class DefinitionReader
{
    private const double USSurveyFootMetres = 1200.0 / 3937.0;

    public static (ProjectedDefinition? Definition, string? Reason) Read(string text)
    {
        if (string.IsNullOrWhiteSpace(text)) return (null, "The definition is empty.");
        var (root, reason) = WktParser.Parse(text);
        if (root is null) return (null, reason);
        if (root.Keyword is "COMPD_CS" or "COMPOUNDCRS") root = root.Child("PROJCS", "PROJCRS", "PROJECTEDCRS", "GEOGCS", "GEOGCRS") ?? root;
        return root.Keyword switch
        {
            "PROJCS" => ReadProjected(root),
            "PROJCRS" or "PROJECTEDCRS" => Wkt2Reader.Read(root),
            _ => (null, WrongKind(root)),
        };
    }

    private static string WrongKind(WktNode root) => root.Keyword switch
    {
        "GEOGCS" or "GEOGCRS" or "GEODCRS" => $"{root.Name} is a geographic system (latitude and longitude), not a projected one.",
        "GEOCCS" => $"{root.Name} is a geocentric system, not a projected one.",
        "LOCAL_CS" or "ENGCRS" => $"{root.Name} is a local system without a tie to the earth; define it as the site grid, by control points.",
        "BOUNDCRS" => "The definition carries a datum shift (BOUNDCRS); paste the projected system alone. Shifts are chosen by name.",
        "VERT_CS" or "VERTCRS" => $"{root.Name} is a system of heights, not a projected one.",
        _ => $"The definition begins with {root.Keyword}; expected PROJCS or PROJCRS, a projected system.",
    };

    private static (ProjectedDefinition? Definition, string? Reason) ReadProjected(WktNode root)
    {
        var geographic = root.Child("GEOGCS");
        var datum = geographic?.Child("DATUM");
        var spheroid = datum?.Child("SPHEROID", "ELLIPSOID");
        if (geographic is null || datum is null || spheroid is null || spheroid.Numbers.Count < 2)
            return (null, $"{root.Name} does not say which datum and ellipsoid it is on (GEOGCS with DATUM and SPHEROID).");
        if (root.Child("PROJECTION") is not { } projection) return (null, $"{root.Name} does not name its projection method (PROJECTION).");
        if (root.Child("UNIT") is not { Numbers.Count: > 0 } unit || !(unit.Numbers[0] > 0)) return (null, $"{root.Name} does not give its unit of length (UNIT).");
        double semiMajor = spheroid.Numbers[0], inverseFlattening = spheroid.Numbers[1];
        if (!(semiMajor > 1e6) || !(inverseFlattening is 0 or > 10))
            return (null, $"{root.Name} gives an ellipsoid that is not the earth: {spheroid.Name}.");

        var angular = geographic.Child("UNIT") is { Numbers.Count: > 0 } a ? ExactAngle(a.Numbers[0]) : Math.PI / 180;
        var meridian = geographic.Child("PRIMEM") is { } p
            ? new PrimeMeridian(p.Name, p.Numbers.Count > 0 ? p.Numbers[0] : 0)
            : new PrimeMeridian("Greenwich", 0);
        var (axes, stated, axisReason) = Axes(root);
        if (axisReason is not null) return (null, axisReason);

        var length = new LinearUnit(unit.Name, ExactLength(unit.Numbers[0]));
        return (new(
            root.Name, Authority(root), Code(root), geographic.Name, Authority(geographic) == "EPSG" ? Code(geographic) : null, datum.Name.Replace('_', ' '),
            Ellipsoid.FromInverseFlattening(spheroid.Name, semiMajor, inverseFlattening),
            meridian, geographic.Child("UNIT")?.Name ?? "degree", length, axes[0], axes[1], stated, projection.Name,
            Parameters(root, angular, length.Metres), root.Child("EXTENSION") is { Texts.Count: > 1 } e ? e.Texts[1] : null), null);
    }

    /// <summary>Parameters by lower-case name: angles in degrees, lengths in metres, scale as it is.</summary>
    private static Dictionary<string, double> Parameters(WktNode root, double radiansPerUnit, double metresPerUnit)
    {
        var parameters = new Dictionary<string, double>(StringComparer.Ordinal);
        foreach (var parameter in root.All("PARAMETER").Where(n => n.Numbers.Count > 0))
        {
            var name = parameter.Name.ToLowerInvariant();
            var value = parameter.Numbers[0];
            if (name is "false_easting" or "false_northing" or "satellite_height") value *= metresPerUnit;
            else if (name != "scale_factor" && radiansPerUnit != Math.PI / 180) value *= radiansPerUnit * 180 / Math.PI;
            parameters[name] = value;
        }

        return parameters;
    }

    internal static (CrsAxis[] Axes, bool Stated, string? Reason) Axes(WktNode root)
    {
        var given = root.All("AXIS").Take(2).ToArray();
        if (given.Length < 2) return ([new("Easting", AxisDirection.East), new("Northing", AxisDirection.North)], false, null);
        var first = Axis(given[0]);
        var second = Axis(given[1]);
        if (first is null || second is null) return ([], false, $"{root.Name} has an axis that runs neither north, south, east nor west.");
        if (IsEastWest(first) != IsEastWest(second)) return ([first, second], true, null);

        // At a pole both axes run along meridians (both SOUTH or both NORTH); only their names tell easting from northing.
        var firstIsNorthing = first.Name.StartsWith("N", StringComparison.OrdinalIgnoreCase);
        return ([new(first.Name, firstIsNorthing ? AxisDirection.North : AxisDirection.East),
            new(second.Name, firstIsNorthing ? AxisDirection.East : AxisDirection.North)], true, null);
    }

    private static CrsAxis? Axis(WktNode node) => (node.Words.Count > 0 ? node.Words[0].ToUpperInvariant() : "") switch
    {
        "EAST" => new(node.Name, AxisDirection.East),
        "NORTH" => new(node.Name, AxisDirection.North),
        "WEST" => new(node.Name, AxisDirection.West),
        "SOUTH" => new(node.Name, AxisDirection.South),
        _ => null,
    };

    private static bool IsEastWest(CrsAxis axis) => axis.Direction is AxisDirection.East or AxisDirection.West;

    private static string Authority(WktNode root) => root.Child("AUTHORITY") is { Texts.Count: > 1 } authority ? authority.Texts[0] : "";

    private static int? Code(WktNode root) =>
        root.Child("AUTHORITY") is { Texts.Count: > 1 } authority
        && int.TryParse(authority.Texts[1], NumberStyles.None, CultureInfo.InvariantCulture, out var code) ? code : null;

    // The table prints units with 15 digits; the exact value is meant.
    internal static double ExactAngle(double radians) =>
        Near(radians, Math.PI / 180) ? Math.PI / 180 : Near(radians, Math.PI / 200) ? Math.PI / 200 : radians;

    internal static double ExactLength(double metres) => Near(metres, USSurveyFootMetres) ? USSurveyFootMetres : metres;

    private static bool Near(double value, double exact) => Math.Abs(value / exact - 1) < 1e-12;
}
