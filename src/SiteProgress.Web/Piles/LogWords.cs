using SiteProgress.Core.Logs;

namespace SiteProgress.Web.Piles;

/// <summary>The words for what a log shows.</summary>
internal static class LogWords
{
    /// <summary>A phase.</summary>
    public static string Of(LogPhaseKind kind) => kind switch
    {
        LogPhaseKind.Idle => "idle",
        LogPhaseKind.Penetration => "penetration",
        LogPhaseKind.Charging => "charging",
        LogPhaseKind.Withdrawal => "withdrawal",
        LogPhaseKind.Redrive => "re-drive",
        LogPhaseKind.PullOut => "pull-out",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "unknown phase"),
    };

    /// <summary>An event.</summary>
    public static string Of(LogEventKind kind) => kind switch
    {
        LogEventKind.HangUp => "hang-up",
        LogEventKind.SandCoverLow => "sand cover too low",
        LogEventKind.AirPressureLow => "air pressure too low",
        LogEventKind.SoilPlug => "soil plug",
        LogEventKind.ValveClosed => "valve not opening",
        LogEventKind.RedriveMissing => "re-drive missing",
        LogEventKind.OverPenetration => "over-penetration",
        LogEventKind.RecordGap => "gap in the record",
        LogEventKind.SensorStuck => "sensor stuck",
        LogEventKind.GaugeDeadZone => "dead zone of the gauge",
        LogEventKind.GaugeLag => "gauge lag",
        LogEventKind.ClockJump => "clock jump",
        LogEventKind.Refusal => "refusal",
        LogEventKind.PullOutAboveTop => "pull-out above design top",
        LogEventKind.PullOutBelowTop => "pull-out below design top",
        LogEventKind.HangUpNotExcluded => "hang-up not excluded",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "unknown event"),
    };

    /// <summary>A channel, as the head of a column.</summary>
    public static string Head(LogChannel channel) => channel switch
    {
        LogChannel.Tip => "Tip",
        LogChannel.Sand => "Sand",
        LogChannel.AirPressure => "Air pressure [kPa]",
        LogChannel.HammerLoad => "Hammer load",
        LogChannel.InclinationX => "Inclination first axis [deg]",
        LogChannel.InclinationY => "Inclination second axis [deg]",
        LogChannel.Charge => "Charge, loose [m3]",
        LogChannel.Valve => "Valve",
        LogChannel.WaterLevel => "Water level [m]",
        _ => throw new ArgumentOutOfRangeException(nameof(channel), channel, "unknown channel"),
    };
}
