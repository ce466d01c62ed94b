using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;
using SiteProgress.Jobs.Today;

namespace SiteProgress.Jobs.Progress;

/// <summary>Puts planned and built beside each other, by zone and for the site.</summary>
internal static class Standings
{
    public static IReadOnlyList<ZoneStanding> Of(
        IReadOnlyList<ZoneProgress> zones, IReadOnlyList<ReadProduction.Line> lines, IReadOnlyList<PlannedProgress> schedule, WorkPlan plan, DateOnly? last)
    {
        Dictionary<string, IReadOnlyList<CurvePoint>> curves = zones.ToDictionary(
            zone => zone.Zone, zone => PlannedCurve.OfZone(zone.Zone, zone.PlannedPiles, schedule, plan));
        List<ZoneStanding> standings = [.. zones.Select(zone => Of(
            zone, Weight(zone.Zone, plan) is null ? null : zone.ByCountRatio, curves[zone.Zone], lines.Where(line => line.Zone == zone.Zone), plan, last))];
        ZoneProgress site = new(
            "", "Whole site", zones.Sum(zone => zone.PlannedPiles), zones.Sum(zone => zone.BuiltPiles), zones.Sum(zone => zone.PlannedMetres),
            zones.Sum(zone => zone.BuiltDesignMetres), zones.Sum(zone => zone.AsBuiltMetres), zones.Sum(zone => zone.PilesByLeastLength));
        standings.Add(Of(site, ByWeight(zones, plan), PlannedCurve.OfSite(schedule, plan, curves.Values), lines.Where(line => line.Zone.Length > 0), plan, last));
        return standings;
    }

    private static ZoneStanding Of(
        ZoneProgress zone, double? byWeight, IReadOnlyList<CurvePoint> planned, IEnumerable<ReadProduction.Line> lines, WorkPlan plan, DateOnly? last)
    {
        double sum = 0;
        CurveDay[] built = lines.GroupBy(line => line.WorkingDay).OrderBy(day => day.Key).Select(day => new CurveDay(day.Key, sum += day.Sum(line => line.Piles))).ToArray();
        LocalDate? now = last is { } day ? LocalDate.FromDateOnly(day) : null;
        bool hasPlan = planned.Count > 0 && now is not null;
        return new ZoneStanding(
            zone.Zone,
            zone.Name,
            zone.PlannedPiles,
            zone.BuiltPiles,
            zone.ByCountRatio,
            zone.ByMetresRatio,
            byWeight,
            hasPlan ? PlannedCurve.At(planned, now!.Value) : null,
            planned.Select(point => new CurveDay(point.Day.ToDateOnly(), point.Piles)).ToArray(),
            built,
            hasPlan ? Standing(planned, built.Length > 0 ? built[^1].Piles : 0, now!.Value, new WorkingCalendar(plan)) : null,
            planned.Count > 0 ? planned[^1].Day.ToDateOnly() : null);
    }

    /// <summary>Earned schedule with a worked day as the period, piles as the value.</summary>
    private static EarnedSchedule? Standing(IReadOnlyList<CurvePoint> planned, double built, LocalDate now, WorkingCalendar calendar)
    {
        double[] value = planned.Where(point => calendar.IsWorked(point.Day)).Select(point => point.Piles).ToArray();
        return EarnedSchedule.Of(value, built, Math.Max(0, calendar.CountWorked(planned[0].Day, now)));
    }

    private static double? ByWeight(IReadOnlyList<ZoneProgress> zones, WorkPlan plan)
    {
        if (zones.All(zone => Weight(zone.Zone, plan) is null)) return null;
        double planned = zones.Sum(zone => zone.PlannedPiles * (Weight(zone.Zone, plan) ?? 1));
        return planned > 0 ? zones.Sum(zone => zone.BuiltPiles * (Weight(zone.Zone, plan) ?? 1)) / planned : null;
    }

    private static double? Weight(string zone, WorkPlan plan)
        => (double?)plan.Zones.FirstOrDefault(one => string.Equals(one.Zone, zone, StringComparison.OrdinalIgnoreCase))?.Weight;
}
