using System.Globalization;
using SiteProgress.Core.Coordinates.Projections;

namespace SiteProgress.Core.Coordinates.Definitions;

/// <summary>
/// A definition's parameters by name, counting which are used: one that a method needs and does not find, or finds and does not know,
/// ends the making, because a parameter passed over is a coordinate quietly wrong.
/// </summary>
internal sealed class ProjectionArguments(ProjectedDefinition definition)
{
    private readonly HashSet<string> used = new(StringComparer.Ordinal);

    public ProjectedDefinition Definition => definition;

    /// <summary>The value of a parameter: degrees, metres or a ratio.</summary>
    public double this[string name]
    {
        get
        {
            used.Add(name);
            return definition.Parameters.TryGetValue(name, out var value) ? value : throw new MissingParameterException(name);
        }
    }

    public double Optional(string name, double otherwise)
    {
        used.Add(name);
        return definition.Parameters.GetValueOrDefault(name, otherwise);
    }

    public ProjectionFrame Frame(string meridian) => new(
        definition.Ellipsoid, this[meridian] + definition.PrimeMeridian.GreenwichLongitudeDegrees,
        this["false_easting"], this["false_northing"]);

    /// <summary>The frame of a method that counts west and south, turned to count east and north.</summary>
    public ProjectionFrame MirroredFrame(string meridian)
    {
        var frame = Frame(meridian);
        return frame with { FalseEastingMetres = -frame.FalseEastingMetres, FalseNorthingMetres = -frame.FalseNorthingMetres };
    }

    /// <summary>Why the definition cannot be followed to the letter; null when every parameter was used or says nothing.</summary>
    public string? ReasonAgainstRest()
    {
        foreach (var (name, value) in definition.Parameters)
            if (!used.Contains(name) && value != (name == "scale_factor" ? 1 : 0))
                return string.Create(CultureInfo.InvariantCulture, $"{definition.Name} gives the parameter {name} = {value}, which its projection method does not have.");
        return null;
    }
}
