using NodaTime;

namespace SiteProgress.Core.Bias;

/// <summary>A casing position that was measured independently while the barge recorded it.</summary>
/// <param name="Sequence">Sequence of its record.</param>
/// <param name="Barge">Barge.</param>
/// <param name="Casing">Casing.</param>
/// <param name="Visit">What measurements that share the barge's error have in common, such as the set-up.</param>
/// <param name="At">When.</param>
/// <param name="Day">Working day.</param>
/// <param name="HeadingDegrees">Heading of the barge then, degrees clockwise from CRS grid north; null where not known.</param>
/// <param name="DifferenceEastMetres">Recorded minus measured, east, metres.</param>
/// <param name="DifferenceNorthMetres">Recorded minus measured, north, metres.</param>
/// <param name="UncertaintyMetres">Uncertainty (95 %) of the measurement, metres.</param>
public sealed record CheckedPosition(
    long Sequence,
    string Barge,
    int Casing,
    string Visit,
    Instant At,
    LocalDate? Day,
    double? HeadingDegrees,
    double DifferenceEastMetres,
    double DifferenceNorthMetres,
    double UncertaintyMetres)
{
    /// <summary>Sequence of the calibration of the casing that the record was made with; null where none holds or none is known.</summary>
    public long? Calibration { get; init; }
}
