using NodaTime;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Records;

/// <summary>A control point was observed again, after the adjustment it belongs to was adopted.</summary>
/// <param name="Mark">Name of the control point.</param>
/// <param name="Position">Where it was found, in the projected CRS or geographic, as it was given.</param>
/// <param name="AdjustmentRevision">The adjustment in force, whose projected CRS and datum the position belongs to.</param>
/// <param name="StandardDeviationMetres">Standard deviation of one coordinate of this observation, metres.</param>
/// <param name="ObservedOn">The day of the observation, site time.</param>
/// <param name="Method">How it was observed, and by whom where that matters.</param>
public sealed record ControlPointObservedBody(
    string Mark, RecordedPosition Position, int AdjustmentRevision, double StandardDeviationMetres, LocalDate ObservedOn, string Method) : RecordBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.ControlPointObserved;
}

/// <summary>An observation of a control point was withdrawn.</summary>
/// <param name="Observation">Sequence of its record.</param>
/// <param name="Reason">Why.</param>
public sealed record ObservationWithdrawnBody(long Observation, string Reason) : RecordBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.ObservationWithdrawn;
}

/// <summary>A projected CRS was put at the surveyor's disposal: the next adjustment may rest on it.</summary>
/// <param name="EpsgCode">Its code in the store's table; 0 where the definition was pasted in.</param>
/// <param name="CrsWkt">Its definition as well-known text.</param>
/// <param name="Reason">Why, and where the definition comes from.</param>
public sealed record ProjectedCrsOfferedBody(int EpsgCode, string CrsWkt, string Reason) : RecordBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.ProjectedCrsOffered;
}

/// <summary>An observation of a control point with who recorded it.</summary>
/// <param name="Sequence">Sequence of its record.</param>
/// <param name="RecordedAt">When it was recorded.</param>
/// <param name="RecordedBy">By whom.</param>
/// <param name="Body">What it says.</param>
/// <param name="Withdrawal">How it was withdrawn, or null while it counts.</param>
public sealed record ControlPointObservation(long Sequence, Instant RecordedAt, string RecordedBy, ControlPointObservedBody Body, Withdrawal? Withdrawal);

/// <summary>A projected CRS at the surveyor's disposal with who put it there.</summary>
/// <param name="Sequence">Sequence of its record.</param>
/// <param name="RecordedAt">When.</param>
/// <param name="RecordedBy">By whom.</param>
/// <param name="Body">What it says.</param>
public sealed record OfferedCrs(long Sequence, Instant RecordedAt, string RecordedBy, ProjectedCrsOfferedBody Body);
