namespace SiteProgress.Core.Logs;

/// <summary>What the casing does.</summary>
public enum LogPhaseKind
{
    /// <summary>It stands.</summary>
    Idle = 1,

    /// <summary>It goes down to the base.</summary>
    Penetration = 2,

    /// <summary>It stands and is filled.</summary>
    Charging = 3,

    /// <summary>It rises and leaves sand.</summary>
    Withdrawal = 4,

    /// <summary>It goes down again and compacts.</summary>
    Redrive = 5,

    /// <summary>It leaves the pile for good.</summary>
    PullOut = 6,
}

/// <summary>One phase of a log.</summary>
/// <param name="Kind">What the casing does.</param>
/// <param name="FromSeconds">Begin, seconds after the first sample.</param>
/// <param name="ToSeconds">End.</param>
/// <param name="FromLevelMetres">Tip level at the begin, metres.</param>
/// <param name="ToLevelMetres">Tip level at the end, metres.</param>
public sealed record LogPhase(LogPhaseKind Kind, double FromSeconds, double ToSeconds, double FromLevelMetres, double ToLevelMetres);

/// <summary>One withdrawal with its re-drive.</summary>
/// <param name="FromSeconds">When the withdrawal began, seconds after the first sample.</param>
/// <param name="ToSeconds">When the re-drive ended.</param>
/// <param name="BottomLevelMetres">Tip level from which the casing was withdrawn, metres.</param>
/// <param name="TopLevelMetres">Tip level to which it was withdrawn.</param>
/// <param name="EndLevelMetres">Tip level to which it was re-driven.</param>
/// <param name="ChargedCubicMetres">Sand filled in meanwhile, loose.</param>
/// <param name="SandLeftCubicMetres">Sand left in the ground over the whole cycle, loose; what was pushed back counts off. Null without a sand gauge.</param>
/// <param name="PushedBackCubicMetres">Sand that came back into the casing during the re-drive, loose.</param>
/// <param name="DiameterMetres">Equivalent diameter over the rise of the cycle; null where it hardly rises.</param>
public sealed record LogCycle(
    double FromSeconds,
    double ToSeconds,
    double BottomLevelMetres,
    double TopLevelMetres,
    double EndLevelMetres,
    double ChargedCubicMetres,
    double? SandLeftCubicMetres,
    double? PushedBackCubicMetres,
    double? DiameterMetres)
{
    /// <summary>Length of the withdrawal, metres.</summary>
    public double WithdrawalMetres => TopLevelMetres - BottomLevelMetres;

    /// <summary>Length of the re-drive, metres.</summary>
    public double RedriveMetres => TopLevelMetres - EndLevelMetres;

    /// <summary>What the pile grew by, metres; below zero for a new pass.</summary>
    public double RiseMetres => EndLevelMetres - BottomLevelMetres;
}

/// <summary>A part of the final pile with the sand it was left with.</summary>
/// <param name="FromLevelMetres">Lower end, metres.</param>
/// <param name="ToLevelMetres">Upper end, metres.</param>
/// <param name="SandCubicMetres">Sand left in it, loose volume in the casing.</param>
/// <param name="Compacted">False for what the last pull-out left.</param>
public sealed record PileSegment(double FromLevelMetres, double ToLevelMetres, double SandCubicMetres, bool Compacted);

/// <summary>One metre of the final pile.</summary>
/// <param name="FromLevelMetres">Lower end, metres.</param>
/// <param name="ToLevelMetres">Upper end, metres.</param>
/// <param name="InPileCubicMetres">Sand in the pile: the loose volume times C.</param>
/// <param name="DiameterMetres">Equivalent diameter.</param>
public sealed record MetreOfPile(double FromLevelMetres, double ToLevelMetres, double InPileCubicMetres, double DiameterMetres);

/// <summary>The least equivalent diameter over a sliding metre, with the interval that holds the truth in 95 of 100 piles.</summary>
/// <param name="DiameterMetres">The diameter, metres.</param>
/// <param name="LowMetres">Lower end of the interval.</param>
/// <param name="HighMetres">Upper end of the interval.</param>
/// <param name="FromLevelMetres">Lower end of the metre in which it lies.</param>
/// <param name="ToLevelMetres">Upper end of that metre.</param>
public sealed record LeastDiameter(double DiameterMetres, double LowMetres, double HighMetres, double FromLevelMetres, double ToLevelMetres);

/// <summary>What a log tells of the pile.</summary>
/// <param name="Refusal">Why nothing can be told; null when the log was read.</param>
/// <param name="Samples">Number of samples.</param>
/// <param name="SpacingSeconds">Usual distance of two samples.</param>
/// <param name="BaseLevelMetres">Deepest level of the tip: the as-built tip.</param>
/// <param name="TopLevelMetres">Level of the last re-drive's end, from which the casing was pulled out: the as-built top of the compacted pile.</param>
/// <param name="SandStoppedLevelMetres">Tip level at which sand stopped leaving in the pull-out.</param>
/// <param name="StopRateMetresPerMinute">Penetration rate at the end of penetration.</param>
/// <param name="PenetrationMinutes">Time from touch-down to the base.</param>
/// <param name="BuildingMinutes">Time from the base to the begin of the pull-out.</param>
/// <param name="LargestInclinationDegrees">Largest inclination of both axes together between base and top.</param>
/// <param name="SandLeftCubicMetres">Sand left from the base on, loose.</param>
/// <param name="ChargedCubicMetres">Charges recorded, loose; null without that channel.</param>
/// <param name="ChargesComparedCubicMetres">Recorded charges that the gauge could see whole.</param>
/// <param name="ChargesByGaugeCubicMetres">The same charges as the sand gauge saw them rise.</param>
/// <param name="Least">Least equivalent diameter.</param>
/// <param name="OpenHangUpMetres">Longest hang-up that no later pass closed, metres.</param>
/// <param name="Phases">Phases in order.</param>
/// <param name="Cycles">Cycles in order.</param>
/// <param name="Segments">The final pile, lowest first.</param>
/// <param name="Metres">The final pile metre by metre from its base.</param>
/// <param name="Events">Events in order of time.</param>
public sealed record LogInterpretation(
    string? Refusal,
    int Samples,
    double SpacingSeconds,
    double? BaseLevelMetres,
    double? TopLevelMetres,
    double? SandStoppedLevelMetres,
    double? StopRateMetresPerMinute,
    double? PenetrationMinutes,
    double? BuildingMinutes,
    double? LargestInclinationDegrees,
    double? SandLeftCubicMetres,
    double? ChargedCubicMetres,
    double? ChargesComparedCubicMetres,
    double? ChargesByGaugeCubicMetres,
    LeastDiameter? Least,
    double OpenHangUpMetres,
    IReadOnlyList<LogPhase> Phases,
    IReadOnlyList<LogCycle> Cycles,
    IReadOnlyList<PileSegment> Segments,
    IReadOnlyList<MetreOfPile> Metres,
    IReadOnlyList<LogEvent> Events)
{
    /// <summary>A log that tells nothing.</summary>
    internal static LogInterpretation Refused(string why, int samples, double spacingSeconds, IReadOnlyList<LogEvent> events) => new(
        why, samples, spacingSeconds, null, null, null, null, null, null, null, null, null, null, null, null, 0, [], [], [], [], events);
}
