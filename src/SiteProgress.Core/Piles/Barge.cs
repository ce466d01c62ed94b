namespace SiteProgress.Core.Piles;

/// <summary>A barge with the casings it builds piles with.</summary>
/// <param name="Name">Name of the barge.</param>
/// <param name="Casings">Its casings.</param>
/// <param name="Hull">Outline of the hull, where known.</param>
/// <param name="LogConstants">Numbers by which logs of this barge are read, by name; null for those of zone and site.</param>
public sealed record Barge(string Name, IReadOnlyList<Casing> Casings, Hull? Hull, IReadOnlyDictionary<string, double>? LogConstants = null);

/// <summary>One casing of a barge. Offsets are from the barge's reference point, metres.</summary>
/// <param name="Number">Number of the casing on its barge.</param>
/// <param name="InnerDiameterMetres">Inner diameter, metres; gives the volume of sand per metre of fall.</param>
/// <param name="OuterDiameterMetres">Outer diameter, metres.</param>
/// <param name="ForwardMetres">Offset forward of the reference point, metres.</param>
/// <param name="StarboardMetres">Offset to starboard of the reference point, metres.</param>
public sealed record Casing(
    int Number, double InnerDiameterMetres, double OuterDiameterMetres, double ForwardMetres, double StarboardMetres);

/// <summary>Length and beam of a barge, metres.</summary>
/// <param name="LengthMetres">Length, metres.</param>
/// <param name="BeamMetres">Beam, metres.</param>
public sealed record Hull(double LengthMetres, double BeamMetres);
