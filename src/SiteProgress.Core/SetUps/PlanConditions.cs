using NodaTime;

namespace SiteProgress.Core.SetUps;

/// <summary>When a barge may work, and how much water it needs: what turns a plan's order into dates.</summary>
/// <param name="Begins">The moment from which the plan counts.</param>
/// <param name="Open">Times in which the barge may work in a zone, by its code; a zone that is not among them is closed.</param>
/// <param name="Anchors">Windows in which anchors may be laid, by current; null where any working time will do.</param>
/// <param name="SetUps">Windows in which the barge may be set up, by current; null where any working time will do.</param>
/// <param name="InWindow">How much of a laying or of a set-up, from its beginning, must lie in a window; null for the whole.</param>
/// <param name="Keel">What the barge asks of the water under its keel; null where nothing was said.</param>
public sealed record PlanConditions(
    Instant Begins,
    IReadOnlyDictionary<string, OpenTimes> Open,
    OpenTimes? Anchors = null,
    OpenTimes? SetUps = null,
    Duration? InWindow = null,
    KeelWater? Keel = null);

/// <summary>A plan against the calendar.</summary>
/// <param name="Begins">The moment from which it counts.</param>
/// <param name="Ends">When the last dated set-up is left; null where none could be dated.</param>
/// <param name="WaitHours">Working time in which the barge waits, hours.</param>
/// <param name="ChangeHours">Time in which casings are set to another spacing, hours.</param>
/// <param name="NotDated">Number of set-ups that got no time, each of which says why.</param>
/// <param name="RoomUnknown">Number of set-ups whose water under the keel is not known.</param>
public sealed record PlanTimetable(Instant Begins, Instant? Ends, double WaitHours, double ChangeHours, int NotDated, int RoomUnknown);
