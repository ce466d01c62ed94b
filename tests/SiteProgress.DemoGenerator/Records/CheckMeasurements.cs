using SiteProgress.DemoGenerator.Site;
using SiteProgress.DemoGenerator.Work;

namespace SiteProgress.DemoGenerator.Records;

/// <summary>A casing's position measured from outside while the barge recorded it. Site grid, metres.</summary>
public sealed record CheckMeasurement(
    DateTime Time, string Barge, int Casing, string Pile, PlanePoint Recorded, PlanePoint Measured, string Method, double Uncertainty);

/// <summary>Each barge is checked about every second week, two set-ups at a time; Plover also in the days of its casing fault.</summary>
public static class CheckMeasurements
{
    /// <summary>Standard deviation of a measured coordinate, metres.</summary>
    public const double MeasuringDeviation = 0.015;

    public static IReadOnlyList<CheckMeasurement> Make(int seed, IReadOnlyList<Installation> installations)
    {
        var chance = ChanceSource.For(seed, "check measurements");
        var result = new List<CheckMeasurement>();
        foreach (var barge in Barge.All)
        {
            var full = installations
                .Where(each => each.Barge == barge && each.Fix == "RTK fixed" && each.Planned is not null && !each.WrittenInWrongFrame)
                .GroupBy(each => each.SetUp)
                .Where(group => group.Count() == 3 && SiteTime.ToSite(group.First().Start).Hour is >= 7 and < 17)
                .OrderBy(group => group.Key)
                .ToList();
            foreach (var setUp in Chosen(full, chance)) result.AddRange(Measure(setUp, chance));
        }

        return [.. result.OrderBy(each => each.Time).ThenBy(each => each.Barge, StringComparer.Ordinal).ThenBy(each => each.Casing)];
    }

    private static IEnumerable<IGrouping<int, Installation>> Chosen(List<IGrouping<int, Installation>> full, ChanceSource chance)
    {
        var next = full[0].First().WorkingDay.AddDays(3);
        DateOnly? today = null;
        var onDay = 0;
        var faultChecked = false;
        foreach (var setUp in full)
        {
            var day = setUp.First().WorkingDay;
            var duringFault = !faultChecked && setUp.Any(each => each.Faults.Contains("casing-offset"));
            if (day != today && (day >= next || duringFault))
            {
                (today, onDay, faultChecked) = (day, 0, faultChecked || duringFault);
                next = day.AddDays(chance.Whole(11, 16));
            }

            if (day == today && onDay++ < 2) yield return setUp;
        }
    }

    private static IEnumerable<CheckMeasurement> Measure(IEnumerable<Installation> setUp, ChanceSource chance)
    {
        foreach (var each in setUp.OrderBy(each => each.Casing))
        {
            var noise = new PlanePoint(chance.Normal(0, MeasuringDeviation), chance.Normal(0, MeasuringDeviation));
            yield return new CheckMeasurement(
                each.Start.AddMinutes(1), each.Barge.Name, each.Casing, each.RecordedPile, each.RecordedTouchDown,
                each.Truth.TouchDown + noise, "total station from the caisson", 0.04);
        }
    }
}
