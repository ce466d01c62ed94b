using SiteProgress.Jobs.History;

namespace SiteProgress.Web.History;

/// <summary>Where a record leads to.</summary>
internal static class HistoryLinks
{
    /// <summary>Address and word of what a record touches; null where it touches nothing that has a page.</summary>
    public static (string Address, string Word)? Of(string site, HistoryTarget? target) => target switch
    {
        null => null,
        { Page: HistoryPageName.Batch } => ($"/sites/{site}/records-in/{Uri.EscapeDataString(target.Name)}", $"batch {target.Name}"),
        { Page: HistoryPageName.Pile } => ($"/sites/{site}/piles/{Uri.EscapeDataString(target.Name)}", target.Name),
        { Page: HistoryPageName.Settings } => ($"/sites/{site}/settings", "settings"),
        { Page: HistoryPageName.SiteGrid } => ($"/sites/{site}/site-grid", "site grid"),
        { Page: HistoryPageName.People } => ($"/sites/{site}/people", "people"),
        { Page: HistoryPageName.Senders } => ($"/sites/{site}/senders", "senders"),
        { Page: HistoryPageName.Calibrations } => ($"/sites/{site}/calibrations", "calibrations"),
        { Page: HistoryPageName.NonConformance } => ($"/sites/{site}/non-conformances/{Uri.EscapeDataString(target.Name)}", $"non-conformance {target.Name}"),
        { Page: HistoryPageName.Lot } => ($"/sites/{site}/lots/{Uri.EscapeDataString(target.Name)}", $"lot {target.Name}"),
        { Page: HistoryPageName.HoldPoints } => ($"/sites/{site}/hold-points", "hold points"),
        { Page: HistoryPageName.ControlPoints } => ($"/sites/{site}/site-grid/marks", "control points"),
        { Page: HistoryPageName.ProjectedCrs } => ($"/sites/{site}/site-grid/crs", "projected CRS"),
        { Page: HistoryPageName.Matches } => ($"/sites/{site}/matches", "matches"),
        { Page: HistoryPageName.Corrections } => ($"/sites/{site}/deviations/corrections", "corrections"),
        { Page: HistoryPageName.Diary } => ($"/sites/{site}/diary?day={Uri.EscapeDataString(target.Name)}", $"diary {target.Name}"),
        { Page: HistoryPageName.WorkPlan } => ($"/sites/{site}/work-plan", "plan of work"),
        { Page: HistoryPageName.DailyReport } => ($"/sites/{site}/daily-report?day={Uri.EscapeDataString(target.Name)}", $"daily report {target.Name}"),
        _ => ($"/sites/{site}/progress", "progress"),
    };
}
