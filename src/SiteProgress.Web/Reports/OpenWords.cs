using SiteProgress.Jobs.HandOver;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Reports;

/// <summary>What is open, in words, and where it is worked on.</summary>
internal static class OpenWords
{
    /// <summary>The words after the count, and the page's address after the site.</summary>
    public static (string Words, string Path) Of(ReadHandOver.OpenItem item) => item.What switch
    {
        ReadHandOver.OpenKind.OutstandingPiles => (Count(item, "pile for which nothing stands", "piles for which nothing stands"), "outstanding"),
        ReadHandOver.OpenKind.PilesNotAccepted => (Count(item, "pile built and not accepted", "piles built and not accepted"), "decisions"),
        ReadHandOver.OpenKind.Reopened => (Count(item, "acceptance re-opened by a later record", "acceptances re-opened by later records"), "piles?reopened=yes"),
        ReadHandOver.OpenKind.MatchesWaiting => (Count(item, "installation of which nobody has said which pile it is", "installations of which nobody has said which pile they are"), "matches"),
        ReadHandOver.OpenKind.NonConformancesOpen => (Count(item, "non-conformance not closed", "non-conformances not closed"), "non-conformances"),
        ReadHandOver.OpenKind.HoldPointsOpen => (Count(item, "hold point not released", "hold points not released"), "hold-points"),
        ReadHandOver.OpenKind.DaysWithoutSignedReport => (Count(item, "working day without a countersigned report", "working days without a countersigned report"), "daily-report"),
        ReadHandOver.OpenKind.SettingsWaiting => (Count(item, "proposal of settings not decided", "proposals of settings not decided"), "decisions"),
        _ => throw new ArgumentOutOfRangeException(nameof(item), item, "unknown kind"),
    };

    private static string Count(ReadHandOver.OpenItem item, string one, string many) => $"{Show.Count(item.Count)} {(item.Count == 1 ? one : many)}";
}
