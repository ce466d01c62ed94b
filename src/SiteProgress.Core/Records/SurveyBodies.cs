using SiteProgress.Core.Ground;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Records;

/// <summary>One calibration of a barge or of one of its casings.</summary>
/// <param name="Line">Line of the file, from 1.</param>
/// <param name="Calibration">What the row says.</param>
public sealed record CalibratedBody(long Line, Calibration Calibration) : RecordBody, IRowBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.Calibrated;
}

/// <summary>Readings of a gauge over one day.</summary>
/// <param name="Line">Line of the file on which the first of them stands, from 1.</param>
/// <param name="Levels">The readings.</param>
public sealed record WaterLevelsBody(long Line, WaterLevels Levels) : RecordBody, IRowBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.WaterLevelsObserved;
}

/// <summary>Soundings of a seabed survey.</summary>
/// <param name="Line">Line of the file on which the first of them stands, from 1.</param>
/// <param name="Survey">The soundings.</param>
public sealed record SeabedSurveyedBody(long Line, SeabedSoundings Survey) : RecordBody, IRowBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.SeabedSurveyed;
}

/// <summary>How a gauge's readings become levels was revised.</summary>
/// <param name="Gauge">The gauge, whole.</param>
/// <param name="Reason">Why.</param>
public sealed record GaugeRevisedBody(Gauge Gauge, string Reason) : RecordBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.GaugeRevised;
}

/// <summary>A gauge was checked.</summary>
/// <param name="Check">The check.</param>
public sealed record GaugeCheckedBody(GaugeCheck Check) : RecordBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.GaugeChecked;
}

/// <summary>The clock of a recording system was put right for a span.</summary>
/// <param name="Correction">The correction.</param>
public sealed record ClockCorrectedBody(ClockCorrection Correction) : RecordBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.ClockCorrected;
}
