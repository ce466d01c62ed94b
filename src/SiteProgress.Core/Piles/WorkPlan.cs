using NodaTime;

namespace SiteProgress.Core.Piles;

/// <summary>How the work is meant to go: zones with dates, barges that come and go, days without work. One revision replaces the one before.</summary>
/// <param name="Zones">Zones with their dates; a zone that is left out has none.</param>
/// <param name="Barges">Barges with their time on site; a barge that is left out is taken to stay as it is.</param>
/// <param name="RestWeekdays">Days of the week on which nobody works.</param>
/// <param name="Holidays">Further days on which nobody works.</param>
/// <param name="Restricted">Periods in which work is not allowed somewhere, or for some barge.</param>
/// <param name="ContractFinish">Day on which the contract wants the work finished.</param>
/// <param name="Windows">Windows of slack water, from a table of currents or a survey of them; null where none were entered.</param>
public sealed record WorkPlan(
    IReadOnlyList<ZonePlan> Zones,
    IReadOnlyList<BargePlan> Barges,
    IReadOnlyList<IsoDayOfWeek> RestWeekdays,
    IReadOnlyList<LocalDate> Holidays,
    IReadOnlyList<RestrictedWindow> Restricted,
    LocalDate? ContractFinish,
    IReadOnlyList<SlackWindow>? Windows = null)
{
    /// <summary>A plan that says nothing: no dates, no rest days.</summary>
    public static WorkPlan Empty { get; } = new([], [], [], [], [], null);
}

/// <summary>When a zone is meant to be built, by its last day or by a rate, and how much its piles weigh in the share done.</summary>
/// <param name="Zone">Code of the zone.</param>
/// <param name="Begins">First working day.</param>
/// <param name="Ends">Last working day; null where a rate is given.</param>
/// <param name="PilesPerDay">Piles per working day; null where the last day is given.</param>
/// <param name="Weight">Weight of one pile of the zone in the share done by weight; 1 when left out.</param>
public sealed record ZonePlan(string Zone, LocalDate Begins, LocalDate? Ends, decimal? PilesPerDay, decimal? Weight);

/// <summary>A barge's time on site and the zones it is meant to build, in order.</summary>
/// <param name="Barge">Barge.</param>
/// <param name="From">First working day on site; null when it is there.</param>
/// <param name="Until">Last working day on site; null when it stays to the end.</param>
/// <param name="Zones">Zones in the order in which it builds them; empty: where it is, then wherever most is left.</param>
public sealed record BargePlan(string Barge, LocalDate? From, LocalDate? Until, IReadOnlyList<string> Zones);

/// <summary>A period in which work is not allowed.</summary>
/// <param name="From">First working day.</param>
/// <param name="To">Last working day.</param>
/// <param name="Zone">Zone; null for all.</param>
/// <param name="Barge">Barge; null for all.</param>
/// <param name="Reason">Why.</param>
public sealed record RestrictedWindow(LocalDate From, LocalDate To, string? Zone, string? Barge, string Reason);

/// <summary>What a window of slack water is for.</summary>
public enum SlackUse
{
    /// <summary>Laying anchors.</summary>
    Anchors = 1,

    /// <summary>Setting the barge up.</summary>
    SetUps,

    /// <summary>Both.</summary>
    Both,
}

/// <summary>A span of time in which the current lets something be done.</summary>
/// <param name="From">Its beginning.</param>
/// <param name="To">Its end.</param>
/// <param name="Use">What may be done.</param>
/// <param name="Barge">Barge; null for all.</param>
public sealed record SlackWindow(Instant From, Instant To, SlackUse Use, string? Barge);
