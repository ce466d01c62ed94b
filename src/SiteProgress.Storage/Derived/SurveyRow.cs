namespace SiteProgress.Storage.Derived;

/// <summary>One calibration with the span for which it holds.</summary>
public sealed class CalibrationRow : IDerivedRow
{
    /// <inheritdoc />
    public int Site { get; set; }

    /// <summary>Sequence of its record.</summary>
    public long Sequence { get; set; }

    /// <summary>Sequence of its batch.</summary>
    public long Batch { get; set; }

    /// <summary>Barge.</summary>
    public required string Barge { get; set; }

    /// <summary>Casing; null for the barge as a whole.</summary>
    public int? Casing { get; set; }

    /// <summary>From when it holds (UTC).</summary>
    public DateTime ValidFrom { get; set; }

    /// <summary>Until when it holds (UTC), not itself within; null while it is the last.</summary>
    public DateTime? ValidUntil { get; set; }

    /// <summary>The calibration, as JSON.</summary>
    public required string Values { get; set; }

    /// <summary>Installations made with it.</summary>
    public int Installations { get; set; }

    /// <inheritdoc />
    public Guid Digest { get; set; }
}

/// <summary>What a gauge read over one day (UTC).</summary>
public sealed class WaterDayRow : IDerivedRow
{
    /// <inheritdoc />
    public int Site { get; set; }

    /// <summary>Gauge.</summary>
    public required string Gauge { get; set; }

    /// <summary>Day (UTC).</summary>
    public DateOnly Day { get; set; }

    /// <summary>Readings.</summary>
    public int Readings { get; set; }

    /// <summary>First reading (UTC).</summary>
    public DateTime FirstAt { get; set; }

    /// <summary>Last reading (UTC).</summary>
    public DateTime LastAt { get; set; }

    /// <summary>Lowest reading, metres as read.</summary>
    public double Lowest { get; set; }

    /// <summary>Highest reading, metres as read.</summary>
    public double Highest { get; set; }

    /// <summary>Longest span between two readings of the day, minutes.</summary>
    public double LargestGap { get; set; }

    /// <inheritdoc />
    public Guid Digest { get; set; }
}

/// <summary>One revision of a gauge.</summary>
public sealed class GaugeRow : IDerivedRow
{
    /// <inheritdoc />
    public int Site { get; set; }

    /// <summary>Sequence of its record.</summary>
    public long Sequence { get; set; }

    /// <summary>Gauge.</summary>
    public required string Gauge { get; set; }

    /// <summary>From when it holds (UTC).</summary>
    public DateTime ValidFrom { get; set; }

    /// <summary>Level of its zero, metres on the site's datum.</summary>
    public double ZeroLevel { get; set; }

    /// <summary>Added to the level at the gauge, metres.</summary>
    public double OffsetToSite { get; set; }

    /// <summary>Largest gap bridged, minutes.</summary>
    public double LargestGap { get; set; }

    /// <summary>Evidence.</summary>
    public required string Evidence { get; set; }

    /// <summary>Why it was revised.</summary>
    public required string Reason { get; set; }

    /// <summary>When it was recorded (UTC).</summary>
    public DateTime RecordedAt { get; set; }

    /// <summary>By whom.</summary>
    public required string RecordedBy { get; set; }

    /// <inheritdoc />
    public Guid Digest { get; set; }
}

/// <summary>One check of a gauge, beside what the gauge gave at that moment.</summary>
public sealed class GaugeCheckRow : IDerivedRow
{
    /// <inheritdoc />
    public int Site { get; set; }

    /// <summary>Sequence of its record.</summary>
    public long Sequence { get; set; }

    /// <summary>Gauge.</summary>
    public required string Gauge { get; set; }

    /// <summary>When (UTC).</summary>
    public DateTime CheckedAt { get; set; }

    /// <summary>Level read independently, metres.</summary>
    public double Level { get; set; }

    /// <summary>Level the gauge gave at the moment, metres; null where it gave none.</summary>
    public double? GaugeLevel { get; set; }

    /// <summary>Why it gave none.</summary>
    public string? Missing { get; set; }

    /// <summary>Method.</summary>
    public required string Method { get; set; }

    /// <summary>Uncertainty (95 %), metres.</summary>
    public double Uncertainty { get; set; }

    /// <summary>By whom it was recorded.</summary>
    public required string RecordedBy { get; set; }

    /// <inheritdoc />
    public Guid Digest { get; set; }
}

/// <summary>One correction of a clock.</summary>
public sealed class ClockCorrectionRow : IDerivedRow
{
    /// <inheritdoc />
    public int Site { get; set; }

    /// <summary>Sequence of its record.</summary>
    public long Sequence { get; set; }

    /// <summary>Barge.</summary>
    public required string Barge { get; set; }

    /// <summary>Sender whose records alone are meant.</summary>
    public string? Sender { get; set; }

    /// <summary>First moment, as the wrong clock showed it (UTC).</summary>
    public DateTime SpanFrom { get; set; }

    /// <summary>End of the span, as the wrong clock showed it (UTC).</summary>
    public DateTime SpanUntil { get; set; }

    /// <summary>By how much the clock was ahead, seconds.</summary>
    public double Ahead { get; set; }

    /// <summary>Why.</summary>
    public required string Reason { get; set; }

    /// <summary>Installations put right by it.</summary>
    public int Installations { get; set; }

    /// <summary>When it was recorded (UTC).</summary>
    public DateTime RecordedAt { get; set; }

    /// <summary>By whom.</summary>
    public required string RecordedBy { get; set; }

    /// <inheritdoc />
    public Guid Digest { get; set; }
}

/// <summary>A key of a sender, without anything of its secret.</summary>
public sealed class SenderKeyRow : IDerivedRow
{
    /// <inheritdoc />
    public int Site { get; set; }

    /// <summary>Names the key.</summary>
    public Guid Key { get; set; }

    /// <summary>Name of the sender.</summary>
    public required string Sender { get; set; }

    /// <summary>Barges whose records it may add.</summary>
    public required string[] Barges { get; set; }

    /// <summary>Sequence of the record that made it.</summary>
    public long Sequence { get; set; }

    /// <summary>When it was made (UTC).</summary>
    public DateTime MadeAt { get; set; }

    /// <summary>Who made it.</summary>
    public required string MadeBy { get; set; }

    /// <summary>When it was withdrawn (UTC); null while it works.</summary>
    public DateTime? WithdrawnAt { get; set; }

    /// <summary>Who withdrew it.</summary>
    public string? WithdrawnBy { get; set; }

    /// <summary>Why.</summary>
    public string? WithdrawnBecause { get; set; }

    /// <inheritdoc />
    public Guid Digest { get; set; }
}
