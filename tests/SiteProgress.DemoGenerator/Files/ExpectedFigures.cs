using SiteProgress.DemoGenerator.Records;
using SiteProgress.DemoGenerator.Site;
using SiteProgress.DemoGenerator.Work;

namespace SiteProgress.DemoGenerator.Files;

/// <summary>
/// Figures counted from the records themselves, for the README and for tests of the product. The deviation here uses the true
/// site grid; an adjustment from the control points differs from it by a few millimetres.
/// </summary>
public static class ExpectedFigures
{
    public static IEnumerable<string> Table(DemoSite site, IReadOnlyList<AsBuiltFile> files)
    {
        var all = site.Installations;
        yield return "| figure | zone A | zone B | zone C | all |";
        yield return "| --- | --- | --- | --- | --- |";
        yield return Row("planned piles", site, zone => site.Layout.Piles.Count(pile => pile.Zone == zone));
        foreach (var outcome in all.Select(each => each.Outcome).Distinct().Order(StringComparer.Ordinal))
            yield return Row("installations, outcome " + outcome, site, zone => all.Count(each => each.Zone == zone && each.Outcome == outcome));
        yield return Row("planned piles with a complete or offset installation", site, zone => Piles(all, zone, each => each.Outcome is "complete" or "offset by instruction"));
        yield return Row("planned piles that stand: complete, offset or refused", site, zone => Piles(all, zone, each => each.ReachedTop));
        yield return Row("planned piles with no installation standing (outstanding)", site, zone =>
            site.Layout.Piles.Count(pile => pile.Zone == zone) - Piles(all, zone, each => each.ReachedTop));
        yield return Row("planned piles that stand as long as no person settled the swapped numbers and the wrong frame", site, zone =>
            Piles(all, zone, each => each is { ReachedTop: true, WrittenInWrongFrame: false } && each.RecordedPile == each.Truth.Pile));
        yield return Row("complete, RTK fixed, right number and frame: judged", site, zone => Judged(all, zone).Count());
        yield return Row("... of these beyond the radial limit at touch-down", site, zone => Judged(all, zone).Count(each => Off(each, each.RecordedTouchDown)));
        yield return Row("... of these beyond the radial limit at the end of penetration", site, zone => Judged(all, zone).Count(each => Off(each, each.RecordedEnd)));
        yield return Row("... of these beyond it at either", site, zone => Judged(all, zone).Count(each => Off(each, each.RecordedTouchDown) || Off(each, each.RecordedEnd)));
        yield return Row("... of those at either, without the planted casing offset", site, zone => Judged(all, zone).Count(each =>
            !each.Faults.Contains("casing-offset") && (Off(each, each.RecordedTouchDown) || Off(each, each.RecordedEnd))));
        yield return Row("planned piles recorded with RTK float", site, zone => all.Count(each => each.Zone == zone && each.Planned is not null && each.Fix == "RTK float"));
        yield return "";
        yield return "| barge | installations | of them trial piles | first working day | last working day | working days with piles | rows in files |";
        yield return "| --- | --- | --- | --- | --- | --- | --- |";
        foreach (var barge in Barge.All)
        {
            var own = all.Where(each => each.Barge == barge).ToList();
            yield return FormattableString.Invariant(
                $"| {barge.Name} | {own.Count} | {own.Count(each => each.Outcome == "trial")} | {SiteTime.Iso(own[0].WorkingDay)} | {SiteTime.Iso(own[^1].WorkingDay)} | {own.Select(each => each.WorkingDay).Distinct().Count()} | {files.Where(file => file.Barge == barge).Sum(file => file.Rows.Count)} |");
        }
    }

    /// <summary>
    /// Production of the last two working days from the recorded figures: piles whose outcome is complete, refused or
    /// offset by instruction; their metres from recorded tip to recorded top; sand loose in the casing, of every attempt.
    /// </summary>
    public static IEnumerable<string> LastDays(DemoSite site)
    {
        yield return "| working day | barge | zone | attempts | piles that reached the top | metres | sand in casing, m3 |";
        yield return "| --- | --- | --- | --- | --- | --- | --- |";
        var days = site.Installations.Select(each => each.WorkingDay).Distinct().OrderDescending().Take(2).ToList();
        var groups = site.Installations.Where(each => days.Contains(each.WorkingDay))
            .GroupBy(each => (each.WorkingDay, Barge: each.Barge.Name, Zone: each.Zone.Code))
            .OrderBy(group => group.Key.WorkingDay).ThenBy(group => group.Key.Barge, StringComparer.Ordinal);
        foreach (var group in groups)
        {
            var standing = group.Where(each => each.ReachedTop).ToList();
            var metres = standing.Sum(each => each.RecordedTop!.Value - each.RecordedTip);
            yield return FormattableString.Invariant(
                $"| {SiteTime.Iso(group.Key.WorkingDay)} | {group.Key.Barge} | {group.Key.Zone} | {group.Count()} | {standing.Count} | {metres:0.00} | {group.Sum(each => each.RecordedSand):0.0} |");
        }
    }

    public static IEnumerable<Installation> Judged(IEnumerable<Installation> all, ZoneDesign zone) => all.Where(each =>
        each.Zone == zone && each is { Outcome: "complete", Fix: "RTK fixed", WrittenInWrongFrame: false } && each.RecordedPile == each.Truth.Pile);

    public static bool Off(Installation each, PlanePoint position) =>
        (new PlanePoint(Math.Round(position.First, 3), Math.Round(position.Second, 3)) - each.Planned!.Position).Length > each.Zone.RadialLimit;

    private static int Piles(IEnumerable<Installation> all, ZoneDesign zone, Func<Installation, bool> which) =>
        all.Where(each => each.Zone == zone && each.Planned is not null && which(each)).Select(each => each.Truth.Pile).Distinct().Count();

    private static string Row(string name, DemoSite site, Func<ZoneDesign, int> count)
    {
        var counts = ZoneDesign.All.Select(count).ToList();
        return FormattableString.Invariant($"| {name} | {counts[0]} | {counts[1]} | {counts[2]} | {counts.Sum()} |");
    }
}
