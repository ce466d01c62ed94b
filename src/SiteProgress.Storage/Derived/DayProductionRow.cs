namespace SiteProgress.Storage.Derived;

/// <summary>Production of one barge, casing and zone on one working day and shift.</summary>
public sealed class DayProductionRow : IDerivedRow
{
    /// <inheritdoc />
    public int Site { get; set; }

    /// <summary>Working day.</summary>
    public DateOnly WorkingDay { get; set; }

    /// <summary>Shift.</summary>
    public required string Shift { get; set; }

    /// <summary>Barge.</summary>
    public required string Barge { get; set; }

    /// <summary>Casing; 0 where the record does not say.</summary>
    public int Casing { get; set; }

    /// <summary>Zone; empty where no pile is adopted.</summary>
    public required string Zone { get; set; }

    /// <summary>Attempts.</summary>
    public int Attempts { get; set; }

    /// <summary>Piles completed.</summary>
    public int Piles { get; set; }

    /// <summary>Metres that stand.</summary>
    public double Metres { get; set; }

    /// <summary>Sand used, loose volume in the casing.</summary>
    public double SandInCasing { get; set; }

    /// <summary>Sand that stands, volume in piles.</summary>
    public double SandInPile { get; set; }

    /// <summary>Completed piles with a finding.</summary>
    public int PilesWithFinding { get; set; }

    /// <inheritdoc />
    public Guid Digest { get; set; }
}

/// <summary>One independent measurement of a casing position.</summary>
public sealed class PositionCheckRow : IDerivedRow
{
    /// <inheritdoc />
    public int Site { get; set; }

    /// <summary>Sequence of its record.</summary>
    public long Sequence { get; set; }

    /// <summary>Sequence of its batch.</summary>
    public long Batch { get; set; }

    /// <summary>When (UTC).</summary>
    public DateTime MeasuredAt { get; set; }

    /// <summary>Barge.</summary>
    public required string Barge { get; set; }

    /// <summary>Casing.</summary>
    public int Casing { get; set; }

    /// <summary>Pile at which it was measured.</summary>
    public string? Number { get; set; }

    /// <summary>Recorded minus measured, along CRS grid east, metres.</summary>
    public double DifferenceEast { get; set; }

    /// <summary>Recorded minus measured, along CRS grid north, metres.</summary>
    public double DifferenceNorth { get; set; }

    /// <summary>Method.</summary>
    public required string Method { get; set; }

    /// <summary>Uncertainty (95 %), metres.</summary>
    public double Uncertainty { get; set; }

    /// <inheritdoc />
    public Guid Digest { get; set; }
}
