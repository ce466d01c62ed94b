using NodaTime;
using SiteProgress.Core.Piles;

namespace SiteProgress.Jobs.Planning;

/// <summary>When a barge may work, what water it needs and how its casings may stand, as it is asked for a plan.</summary>
/// <param name="Begins">Working day at whose beginning the plan begins; null for the day after the last record of a pile.</param>
/// <param name="HoursPerDay">Hours worked of each working day, from its beginning.</param>
/// <param name="SlackMinutes">Minutes before and after high and low water in which the current is slack; null where it does not matter or windows were entered.</param>
/// <param name="SlackLagMinutes">Minutes by which the current turns after high and low water.</param>
/// <param name="SlackUse">What needs slack water.</param>
/// <param name="InWindowMinutes">Minutes of a laying or set-up, from its beginning, that need slack water; null for all of it.</param>
/// <param name="DraughtMetres">Draught of the barge, metres; null where nothing is asked of the water.</param>
/// <param name="KeelMetres">Water wanted under the keel, metres.</param>
/// <param name="Seabeds">Level of the seabed stated for zones, heave and all, metres on the site's datum.</param>
/// <param name="SpacingsMetres">Spacings the casings may have, metres; none: as they stand.</param>
/// <param name="ChangeHours">Hours for one change of spacing.</param>
/// <param name="SeaMetres">Significant wave height up to which laying the anchors was checked, metres; null where nobody said.</param>
/// <param name="UnforeseenHours">Hours kept for the unforeseen when anchors are laid; null: as much again as planned.</param>
/// <param name="WorkableRatio">Share of the time that can be worked; null for the diary's.</param>
public sealed record PlanTimes(
    LocalDate? Begins = null,
    double HoursPerDay = 24,
    double? SlackMinutes = null,
    double SlackLagMinutes = 0,
    SlackUse SlackUse = SlackUse.Anchors,
    double? InWindowMinutes = null,
    double? DraughtMetres = null,
    double KeelMetres = 1,
    IReadOnlyDictionary<string, double>? Seabeds = null,
    IReadOnlyList<double>? SpacingsMetres = null,
    double ChangeHours = 12,
    double? SeaMetres = null,
    double? UnforeseenHours = null,
    double? WorkableRatio = null)
{
    /// <summary>Why it cannot be asked so; null where it can.</summary>
    internal string? Problem(SiteSettings settings)
    {
        if (Begins is { Year: < 1950 or > 2150 }) return "The plan begins on a day between 1950 and 2150.";
        if (HoursPerDay is not (>= 1 and <= 24)) return "Hours worked a day are between 1 and 24.";
        if (SlackMinutes is not (null or (>= 1 and <= 180))) return "Slack water lies 1 to 180 minutes about high and low water.";
        if (SlackLagMinutes is not (>= -360 and <= 360)) return "The current turns at most 360 minutes before or after high and low water.";
        if (InWindowMinutes is not (null or (>= 1 and <= 6000))) return "Minutes that need slack water are between 1 and 6000.";
        if (DraughtMetres is not (null or (> 0 and <= 30))) return "The draught is above 0 and at most 30 metres.";
        if (KeelMetres is not (>= 0 and <= 20)) return "The water wanted under the keel is between 0 and 20 metres.";
        if (SpacingsMetres is { Count: > 3 }) return "More than three spacings are more than the solver can weigh in the time.";
        if (SpacingsMetres?.Any(spacing => spacing is not (>= 0.5 and <= 50)) == true) return "Spacings of the casings are between 0.5 and 50 metres.";
        if (ChangeHours is not (>= 0 and <= 500)) return "Hours for a change of the spacing are between 0 and 500.";
        if (SeaMetres is not (null or (> 0 and <= 15))) return "The sea up to which laying the anchors was checked is a significant wave height above 0 and at most 15 metres.";
        if (UnforeseenHours is not (null or (>= 0 and <= 1000))) return "Hours for the unforeseen are between 0 and 1000.";
        if (WorkableRatio is not (null or (> 0 and <= 1))) return "The share of the time that can be worked is above 0 and at most 100 %.";
        return SeabedProblem(settings);
    }

    private string? SeabedProblem(SiteSettings settings)
    {
        foreach ((string zone, double level) in Seabeds ?? new Dictionary<string, double>())
        {
            if (settings.FindZone(zone) is null) return $"There is no zone \"{zone}\" for a seabed; the site has {string.Join(", ", settings.Zones.Select(one => one.Code))}.";
            if (level is not (>= -200 and <= 50)) return "Levels of the seabed are metres on the site's datum, between -200 and 50.";
        }

        return null;
    }
}
