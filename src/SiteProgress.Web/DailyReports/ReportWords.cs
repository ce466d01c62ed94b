using System.Globalization;
using System.Text.RegularExpressions;
using SiteProgress.Jobs.DailyReports;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.DailyReports;

/// <summary>Titles and heads of the sections of a daily report.</summary>
public static partial class ReportWords
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
        [ReportSection.Tide] = new("Water levels", ["Gauge", "Lowest [m]", "Highest [m]", "Readings"], "No water level is on record for the day."),
        [ReportSection.SurveyChecks] = new("Survey checks, recorded minus measured", ["Barge", "Casing", "Pile", "East [mm]", "North [mm]", "Method"], "None on the day."),
        [ReportSection.Notes] = new("Notes", ["What", "Note"], ""),
        [ReportSection.Standing] = new("Where the work stands at the end of the day", ["Zone", "Planned piles", "Built piles", "Left piles", "Built [%]"], "No pile is planned."),
    };

    /// <summary>The words of a section.</summary>
    public static SectionWords Of(ReportSection section) => All[section];

    /// <summary>True for a column of numbers.</summary>
    public static bool IsNumber(string head)
    {
        ArgumentNullException.ThrowIfNull(head);
        return head.EndsWith(']') || head.EndsWith("piles", StringComparison.Ordinal) || head is "Attempts" or "Piles" or "Readings" or "Not completed" or "With finding";
    }

    /// <summary>A cell as a page shows it: the figure as it was issued, set with thin-space thousands and a real minus sign.</summary>
    /// <param name="head">Head of its column.</param>
    /// <param name="cell">The cell as it was issued, which a seal covers and which stays as it is.</param>
    public static string Shown(string head, string cell)
    {
        ArgumentNullException.ThrowIfNull(cell);
        return IsNumber(head) && PlainNumber().IsMatch(cell)
            ? Show.Number(double.Parse(cell, CultureInfo.InvariantCulture), cell.Contains('.', StringComparison.Ordinal) ? cell.Length - 1 - cell.IndexOf('.', StringComparison.Ordinal) : 0)
            : cell;
    }

    /// <summary>What tells a line from the others where one is chosen: its section and what stands in it.</summary>
    public static string Label(ReportLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        SectionWords words = Of(line.Section);
        IEnumerable<string> cells = words.Heads.Zip(line.Cells).Where(pair => pair.Second.Length > 0).Select(pair => Shown(pair.First, pair.Second));
        return $"{words.Title.Split(',')[0]}: {string.Join(", ", cells.Take(5))}";
    }

    [GeneratedRegex(@"^-?\d{1,12}(\.\d{1,6})?$")]
    private static partial Regex PlainNumber();
}
