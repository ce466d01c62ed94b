namespace SiteProgress.Jobs.DailyReports;

/// <summary>What a daily report says of one working day. Once issued, exactly this stands in the record.</summary>
/// <param name="Site">Name of the site.</param>
/// <param name="Day">Working day.</param>
/// <param name="Lines">Its lines, section by section.</param>
public sealed record DailyReportContent(string Site, DateOnly Day, IReadOnlyList<ReportLine> Lines);

/// <summary>One line; its name is what a dispute points at.</summary>
/// <param name="Section">Section.</param>
/// <param name="Name">Name of the line, one of its kind in the report.</param>
/// <param name="Cells">Its cells, written as they are read: numbers with a point, to the decimals of their kind.</param>
public sealed record ReportLine(ReportSection Section, string Name, IReadOnlyList<string> Cells);

/// <summary>Sections of a daily report, in order.</summary>
public enum ReportSection
{
    /// <summary>What was built, by barge and zone.</summary>
    Production = 1,

    /// <summary>Hours by barge, activity, cause and bearer.</summary>
    Hours,

    /// <summary>Checks not met.</summary>
    Findings,

    /// <summary>Attempts interrupted or abandoned.</summary>
    NotCompleted,

    /// <summary>Sand by source.</summary>
    Sand,

    /// <summary>Water levels.</summary>
    Tide,

    /// <summary>Check measurements.</summary>
    SurveyChecks,

    /// <summary>Notes: weather and sea, crew and plant, instructions, incidents, the plan for the next day.</summary>
    Notes,

    /// <summary>Where the whole work stands at the end of the day.</summary>
    Standing,
}

/// <summary>A daily report with its issues.</summary>
/// <param name="SequenceOfRecords">Sequence of the last record of the site.</param>
/// <param name="HeadHash">Hash of the chain at that record.</param>
/// <param name="TimeZone">IANA time zone of the site.</param>
/// <param name="Day">Working day.</param>
/// <param name="Shown">The content shown: the issue asked for, or what an issue made now would say.</param>
/// <param name="ShownIssue">Number of the issue shown; null for what an issue made now would say.</param>
/// <param name="Issues">All issues of the day, in order.</param>
/// <param name="HasChanged">True where an issue made now would say something else than the last one.</param>
public sealed record DailyReportView(
    long SequenceOfRecords,
    string HeadHash,
    string TimeZone,
    DateOnly Day,
    DailyReportContent Shown,
    int? ShownIssue,
    IReadOnlyList<ReportIssue> Issues,
    bool HasChanged)
{
    /// <summary>The issue shown; null for a draft.</summary>
    public ReportIssue? Issue => Issues.FirstOrDefault(one => one.Issue == ShownIssue);
}

/// <summary>One issue of a report.</summary>
/// <param name="Issue">Number, from 1.</param>
/// <param name="HeadSequence">Sequence of the last record it follows from.</param>
/// <param name="HeadHash">Hash of the chain at that record.</param>
/// <param name="Reason">Why an issue after the first was made.</param>
/// <param name="IssuedAt">When (UTC).</param>
/// <param name="IssuedBy">By whom.</param>
/// <param name="SignedAt">When the contractor signed (UTC).</param>
/// <param name="SignedBy">Who signed.</param>
/// <param name="CountersignedAt">When the owner countersigned (UTC).</param>
/// <param name="CountersignedBy">Who countersigned.</param>
/// <param name="Disputes">Lines the owner disputes.</param>
public sealed record ReportIssue(
    int Issue,
    long HeadSequence,
    string HeadHash,
    string? Reason,
    DateTime IssuedAt,
    string IssuedBy,
    DateTime? SignedAt,
    string? SignedBy,
    DateTime? CountersignedAt,
    string? CountersignedBy,
    IReadOnlyList<DisputedLine> Disputes);

/// <summary>A disputed line.</summary>
/// <param name="Line">Name of the line.</param>
/// <param name="Text">What is disputed and why.</param>
/// <param name="At">When (UTC).</param>
/// <param name="By">By whom.</param>
public sealed record DisputedLine(string Line, string Text, DateTime At, string By);
