namespace SiteProgress.Core.Logs;

/// <summary>What a log shows that a person should look at.</summary>
public enum LogEventKind
{
    /// <summary>The casing rose and the sand did not leave it.</summary>
    HangUp = 1,

    /// <summary>The sand above the tip was lower than the least cover during withdrawal.</summary>
    SandCoverLow = 2,

    /// <summary>The air pressure was below the outside water pressure at the tip.</summary>
    AirPressureLow = 3,

    /// <summary>The height above the tip rose during penetration without a charge: soil in the casing.</summary>
    SoilPlug = 4,

    /// <summary>The casing rose with the valve closed.</summary>
    ValveClosed = 5,

    /// <summary>A withdrawal much longer than the others, below the top, without a re-drive.</summary>
    RedriveMissing = 6,

    /// <summary>The tip went farther below the design tip than named.</summary>
    OverPenetration = 7,

    /// <summary>No samples for a while.</summary>
    RecordGap = 8,

    /// <summary>A channel did not change while the casing moved.</summary>
    SensorStuck = 9,

    /// <summary>The sand gauge stood at an end of its range.</summary>
    GaugeDeadZone = 10,

    /// <summary>The sand gauge followed late.</summary>
    GaugeLag = 11,

    /// <summary>The logger's clock jumped.</summary>
    ClockJump = 12,

    /// <summary>The ground stopped the casing above the design tip.</summary>
    Refusal = 13,

    /// <summary>The last pull-out began above the design top.</summary>
    PullOutAboveTop = 14,

    /// <summary>The last pull-out began below the design top: the pile's head was not compacted.</summary>
    PullOutBelowTop = 15,

    /// <summary>While the sand gauge saw nothing a hang-up may have been: charges and strokes do not tell.</summary>
    HangUpNotExcluded = 16,
}

/// <summary>One named event of a log.</summary>
/// <param name="Kind">What happened.</param>
/// <param name="FromSeconds">When it began, seconds after the first sample.</param>
/// <param name="ToSeconds">When it ended.</param>
/// <param name="FromLevelMetres">Level of the tip when it began, metres.</param>
/// <param name="ToLevelMetres">Level of the tip when it ended, metres.</param>
/// <param name="SizeMetres">Its size in metres, where it has one.</param>
/// <param name="Open">For a hang-up, told or not excluded, and for too little sand above the tip: true where no later pass went below it.</param>
/// <param name="Note">What was seen, in one sentence.</param>
public sealed record LogEvent(
    LogEventKind Kind,
    double FromSeconds,
    double ToSeconds,
    double FromLevelMetres,
    double ToLevelMetres,
    double? SizeMetres,
    bool Open,
    string Note);
