using NetTopologySuite.Geometries;

namespace SiteProgress.Storage.Derived;

/// <summary>One recorded installation that counts, with its match and its position on the site grid.</summary>
public sealed class InstallationRow : IDerivedRow
{
    /// <inheritdoc />
    public int Site { get; set; }

    /// <summary>Sequence of its record.</summary>
    public long Sequence { get; set; }

    /// <summary>Sequence of its batch.</summary>
    public long Batch { get; set; }

    /// <summary>Line of the file.</summary>
    public long Line { get; set; }

    /// <summary>The sender's identifier.</summary>
    public string? RecordId { get; set; }

    /// <summary>Pile number as recorded.</summary>
    public required string RecordedNumber { get; set; }

    /// <summary>How it stands to the design, the number of <see cref="Core.Matching.MatchOutcome"/>.</summary>
    public short Match { get; set; }

    /// <summary>Number of the planned pile it is taken for.</summary>
    public string? Adopted { get; set; }

    /// <summary>Number of the nearest planned pile within reach.</summary>
    public string? Nearest { get; set; }

    /// <summary>Distance to the pile its number names, metres.</summary>
    public double? DistanceToNamed { get; set; }

    /// <summary>Distance to the nearest planned pile within reach, metres.</summary>
    public double? DistanceToNearest { get; set; }

    /// <summary>Sequence of the record it repeats.</summary>
    public long? SameAs { get; set; }

    /// <summary>True while a person has to decide.</summary>
    public bool WaitsForDecision { get; set; }

    /// <summary>True when its pile stands on it.</summary>
    public bool Stands { get; set; }

    /// <summary>Barge.</summary>
    public required string Barge { get; set; }

    /// <summary>Casing.</summary>
    public int? Casing { get; set; }

    /// <summary>Set-up.</summary>
    public string? SetUp { get; set; }

    /// <summary>Start (UTC).</summary>
    public DateTime? StartedAt { get; set; }

    /// <summary>End of penetration (UTC).</summary>
    public DateTime? DeepestAt { get; set; }

    /// <summary>Casing left the pile (UTC).</summary>
    public DateTime? EndedAt { get; set; }

    /// <summary>Working day of the end.</summary>
    public DateOnly? WorkingDay { get; set; }

    /// <summary>Shift of the end.</summary>
    public string? Shift { get; set; }

    /// <summary>Adjustment by which its positions were put on the site grid.</summary>
    public int AdjustmentRevision { get; set; }

    /// <summary>Frame of the positions as recorded, the number of <see cref="Core.Piles.Frame"/>.</summary>
    public short? Frame { get; set; }

    /// <summary>Touch-down, site grid.</summary>
    public double? TouchDownX { get; set; }

    /// <summary>Touch-down, site grid.</summary>
    public double? TouchDownY { get; set; }

    /// <summary>End of penetration, site grid.</summary>
    public double? DeepestX { get; set; }

    /// <summary>End of penetration, site grid.</summary>
    public double? DeepestY { get; set; }

    /// <summary>Geographic position, at the end of penetration or else at touch-down.</summary>
    public double? Latitude { get; set; }

    /// <summary>Geographic position.</summary>
    public double? Longitude { get; set; }

    /// <summary>The same position in the projected CRS.</summary>
    public Point? Place { get; set; }

    /// <summary>Heading, degrees.</summary>
    public double? Heading { get; set; }

    /// <summary>North of the heading, the number of <see cref="Core.Piles.North"/>.</summary>
    public short? HeadingNorth { get; set; }

    /// <summary>As-built top level.</summary>
    public double? Top { get; set; }

    /// <summary>Tip level.</summary>
    public double? Tip { get; set; }

    /// <summary>Sand, loose volume in the casing.</summary>
    public double? SandInCasing { get; set; }

    /// <summary>Inclination, degrees.</summary>
    public double? Inclination { get; set; }

    /// <summary>Penetration rate at the stop, metres per minute.</summary>
    public double? StopRate { get; set; }

    /// <summary>Fix, the number of <see cref="Core.Piles.FixType"/>.</summary>
    public short? Fix { get; set; }

    /// <summary>Uncertainty (95 %) as recorded, metres.</summary>
    public double? Uncertainty { get; set; }

    /// <summary>Outcome, the number of <see cref="Core.Piles.Outcome"/>.</summary>
    public short Outcome { get; set; }

    /// <summary>The crew's remark.</summary>
    public string? Remark { get; set; }

    /// <summary>Sequence of the calibration of its casing that held when it was made.</summary>
    public long? Calibration { get; set; }

    /// <summary>Sequence of the correction its times were put right by.</summary>
    public long? ClockCorrection { get; set; }

    /// <summary>Levels derived from recorded depths with all that went into them, as JSON.</summary>
    public string? Levels { get; set; }

    /// <summary>Age of the correction of its position, seconds.</summary>
    public double? CorrectionAge { get; set; }

    /// <summary>Epoch of its coordinates, a year with decimals.</summary>
    public double? CoordinateEpoch { get; set; }

    /// <summary>Sequence of the last correction its positions carry; null where they are as recorded.</summary>
    public long? PositionCorrection { get; set; }

    /// <inheritdoc />
    public Guid Digest { get; set; }
}
