using NodaTime;

namespace SiteProgress.Jobs.History;

/// <summary>One record of a site's history that is no row of a batch.</summary>
/// <param name="Sequence">Its place in the sequence.</param>
/// <param name="At">When it was recorded.</param>
/// <param name="By">Who recorded it, as a name.</param>
/// <param name="Group">What it belongs to.</param>
/// <param name="What">What it says, as a sentence.</param>
/// <param name="Why">The reason that was given; null where none is asked for.</param>
/// <param name="Touches">What it touches.</param>
/// <param name="Hash">Its hash in the chain, hexadecimal.</param>
public sealed record HistoryEntry(long Sequence, Instant At, string By, HistoryGroup Group, string What, string? Why, HistoryTarget? Touches, string Hash);

/// <summary>What a record touches.</summary>
/// <param name="Page">Which page shows it.</param>
/// <param name="Name">Its number or name; empty where the page shows it as a whole.</param>
public sealed record HistoryTarget(HistoryPageName Page, string Name);

/// <summary>Pages a record may lead to.</summary>
public enum HistoryPageName
{
    /// <summary>One batch.</summary>
    Batch = 1,

    /// <summary>One pile.</summary>
    Pile,

    /// <summary>Site settings.</summary>
    Settings,

    /// <summary>Site grid.</summary>
    SiteGrid,

    /// <summary>People.</summary>
    People,

    /// <summary>Senders.</summary>
    Senders,

    /// <summary>Calibrations, gauges and water levels.</summary>
    Calibrations,

    /// <summary>Progress.</summary>
    Progress,

    /// <summary>One non-conformance.</summary>
    NonConformance,

    /// <summary>One lot.</summary>
    Lot,

    /// <summary>Hold points.</summary>
    HoldPoints,

    /// <summary>Control points over time.</summary>
    ControlPoints,

    /// <summary>Projected systems.</summary>
    ProjectedCrs,

    /// <summary>Decisions on matches.</summary>
    Matches,

    /// <summary>Corrections of positions.</summary>
    Corrections,

    /// <summary>The diary of a working day.</summary>
    Diary,

    /// <summary>Plan of work.</summary>
    WorkPlan,

    /// <summary>The daily report of a working day.</summary>
    DailyReport,
}

/// <summary>A part of the history.</summary>
/// <param name="Entries">The entries, the latest first.</param>
/// <param name="Total">How many there are in all.</param>
/// <param name="Recorders">Who recorded anything on this site: as the records write it, and as a name.</param>
/// <param name="TimeZone">IANA time zone of the site.</param>
public sealed record HistoryPart(IReadOnlyList<HistoryEntry> Entries, int Total, IReadOnlyList<(string Written, string Name)> Recorders, string TimeZone);

/// <summary>What the history is narrowed to.</summary>
/// <param name="Group">One group; null for all.</param>
/// <param name="By">One recorder, as the records write it; null for all.</param>
/// <param name="From">First day, site time; null from the beginning.</param>
/// <param name="To">Last day, site time; null to the end.</param>
public sealed record HistoryFilter(HistoryGroup? Group, string? By, LocalDate? From, LocalDate? To);
