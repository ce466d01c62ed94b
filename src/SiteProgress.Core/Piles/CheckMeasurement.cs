using NodaTime;

namespace SiteProgress.Core.Piles;

/// <summary>
/// A casing position measured independently of the barge's own system. Only such a measurement shows an error
/// that the barge both steers by and records with.
/// </summary>
/// <param name="At">When it was measured.</param>
/// <param name="Barge">Barge.</param>
/// <param name="Casing">Number of the casing.</param>
/// <param name="PileNumber">Pile at which it was measured, where one.</param>
/// <param name="Recorded">What the barge's own system said.</param>
/// <param name="Measured">What the independent measurement said.</param>
/// <param name="Method">How it was measured.</param>
/// <param name="UncertaintyMetres">Uncertainty of the measurement (95 %), metres.</param>
public sealed record CheckMeasurement(
    Instant At,
    string Barge,
    int Casing,
    string? PileNumber,
    RecordedPosition Recorded,
    RecordedPosition Measured,
    string Method,
    double UncertaintyMetres);
