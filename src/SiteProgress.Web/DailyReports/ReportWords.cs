using SiteProgress.Jobs.DailyReports;

namespace SiteProgress.Web.DailyReports;

/// <summary>Titles and heads of the sections of a daily report.</summary>
public static class ReportWords
{
    /// <summary>Words of a section.</summary>
    /// <param name="Title">Its title.</param>
    /// <param name="Heads">Heads of its columns, with units.</param>
    /// <param name="None">What stands where it has no line.</param>
    public sealed record SectionWords(string Title, IReadOnlyList<string> Heads, string None);

    private static readonly Dictionary<ReportSection, SectionWords> All = new()
    {
        [ReportSection.Production] = new("Production", ["Barge", "Zone", "Attempts", "Piles", "Metres [m]", "Sand in casing [m³]", "Sand in pile [m³]", "Not completed", "With finding"], "Nothing was built."),
        [ReportSection.Hours] = new("Hours", ["Barge", "Activity", "Cause", "Borne by", "Hours [h]", "Remark"], "No hours are in the diary."),
        [ReportSection.Findings] = new("Findings", ["Pile", "Barge", "Checks not met", "Radial [mm]", "Limit [mm]"], "None."),
        [ReportSection.NotCompleted] = new("Attempts not completed", ["Pile", "Barge", "Outcome", "Remark"], "None."),
        [ReportSection.Sand] = new(
            "Sand balance, loose volume except where said",
            ["Source", "Delivered [m³]", "In casing [m³]", "In pile, times C [m³]", "Lost [m³]", "Delivered to date [m³]", "In casing to date [m³]", "Lost to date [m³]", "Left by the account [m³]"], "The site has no sand source."),
        [ReportSection.Tide] = new("Water levels", ["Gauge", "Lowest [m]", "Highest [m]", "Readings, count"], "No water level is on record for the day."),
        [ReportSection.SurveyChecks] = new("Survey checks, recorded minus measured", ["Barge", "Casing, count", "Pile", "East [mm]", "North [mm]", "Method"], "None on the day."),
        [ReportSection.Notes] = new("Notes", ["What", "Note"], ""),
        [ReportSection.Standing] = new("Where the work stands at the end of the day", ["Zone", "Planned, piles", "Built, piles", "Left, piles", "Built [%]"], "No pile is planned."),
    };

    /// <summary>The words of a section.</summary>
    public static SectionWords Of(ReportSection section) => All[section];

    /// <summary>True for a column of numbers.</summary>
    public static bool IsNumber(string head)
    {
        ArgumentNullException.ThrowIfNull(head);
        return head.EndsWith(']') || head.EndsWith("piles", StringComparison.Ordinal) || head.EndsWith("count", StringComparison.Ordinal) || head is "Attempts" or "Piles" or "Not completed" or "With finding";
    }
}
