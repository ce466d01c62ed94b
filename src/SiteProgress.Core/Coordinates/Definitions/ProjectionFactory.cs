using SiteProgress.Core.Coordinates.Projections;

namespace SiteProgress.Core.Coordinates.Definitions;

/// <summary>Makes the projection a definition names, or says why it is refused.</summary>
internal static class ProjectionFactory
{
    private static readonly Dictionary<string, Func<Arguments, IProjection>> Methods = new(StringComparer.OrdinalIgnoreCase)
    {
        ["Transverse_Mercator"] = a => new TransverseMercator(a.Frame("central_meridian"), a["latitude_of_origin"], a["scale_factor"]),
        ["Gauss_Kruger"] = a => new TransverseMercator(a.Frame("central_meridian"), a["latitude_of_origin"], a["scale_factor"]),
    };

    public static (IProjection? Projection, string? Reason) Create(ProjectedDefinition definition)
    {
        if (!Methods.TryGetValue(definition.Method, out var make))
            return (null, $"{definition.Name} uses the projection method {definition.Method.Replace('_', ' ')}, which is not supported here to survey accuracy.");
        try
        {
            return (make(new(definition)), null);
        }
        catch (MissingParameterException missing)
        {
            return (null, $"{definition.Name} does not give the parameter {missing.Message}, which its projection method needs.");
        }
    }

    /// <summary>The definition's parameters by name; one that is missing ends the making with its name.</summary>
    private sealed class Arguments(ProjectedDefinition definition)
    {
        public double this[string name] =>
            definition.Parameters.TryGetValue(name, out var value) ? value : throw new MissingParameterException(name);

        public ProjectionFrame Frame(string meridian) => new(
            definition.Ellipsoid, this[meridian] + definition.PrimeMeridian.GreenwichLongitudeDegrees,
            this["false_easting"], this["false_northing"]);
    }
}
