namespace SiteProgress.Bench.Coordinates;

/// <summary>What the comparison of one system with PROJ came to.</summary>
/// <param name="Row">The row of the table.</param>
/// <param name="Method">The projection method its definition names.</param>
/// <param name="Refusal">Why the system is refused; null where it is supported.</param>
/// <param name="IsFound">True where the refusal was found by comparing, so that the product must be told of it.</param>
/// <param name="Points">Points compared.</param>
/// <param name="ForwardMetres">Largest distance between our projected point and PROJ's, metres.</param>
/// <param name="InverseMetres">Largest distance on the ground between our geographic point and PROJ's, metres.</param>
/// <param name="RoundTripMetres">Largest distance on the ground after our forward and inverse, metres.</param>
/// <param name="PeerRoundTripMetres">The same after PROJ's forward and inverse, metres.</param>
public sealed record SweepResult(
    SpatialReferenceRow Row, string Method, string? Refusal, bool IsFound, int Points,
    double ForwardMetres, double InverseMetres, double RoundTripMetres, double PeerRoundTripMetres);
