namespace SiteProgress.Core.Coordinates.Definitions;

/// <summary>What the text of a projected CRS says, in degrees and metres, before any projection is made from it.</summary>
internal sealed record ProjectedDefinition(
    string Name, string Authority, int? Code, string GeographicName, int? GeographicCode, string DatumName, Ellipsoid Ellipsoid, PrimeMeridian PrimeMeridian,
    string AngularUnitName, LinearUnit Unit, CrsAxis FirstAxis, CrsAxis SecondAxis, bool AxesAreStated,
    string Method, IReadOnlyDictionary<string, double> Parameters, string? Extension);

/// <summary>A parameter that a projection method needs and the definition does not give.</summary>
internal sealed class MissingParameterException(string parameter) : Exception(parameter);
