using NodaTime;

namespace SiteProgress.Core.Bias;

/// <summary>Hotelling's test of every barge, casing, week and heading, with a bound on false discoveries over all of them.</summary>
internal static class GroupTests
{
    private const int LeastSetUps = 5;
    private const string BargeAxes = "forward, starboard", GridAxes = "east, north";

    /// <summary>Headings within this many degrees are one group.</summary>
    private const double HeadingGroup = 30;

    public static IReadOnlyList<GroupTest> Of(ReviewData data, BiasSite site)
    {
        SeriesMaker maker = new(data);
        List<GroupTest> all = [];
        for (int barge = 0; barge < data.Barges.Length; barge++)
        {
            int[] setUps = data.SetUpsOf[barge];
            bool axes = setUps.All(one => data.HasHeading(data.SetUps[one].First));
            Add(all, "barge", data.Barges[barge], axes ? BargeAxes : GridAxes, setUps.Select(one => Mean(data, one, axes)));
            foreach (Series series in maker.Casings(barge))
                Add(all, "casing", $"{data.Barges[barge]} {series.Casing}", BargeAxes, series.SetUps.Select(one => Against(maker, data.SetUps[one], series.Casing!.Value)));
            foreach (IGrouping<int, int> heading in setUps.Where(one => data.HasHeading(data.SetUps[one].First)).GroupBy(one => Heading(data, one)).OrderBy(group => group.Key))
                Add(all, "heading", $"{data.Barges[barge]} {heading.Key}°", GridAxes, heading.Select(one => Mean(data, one, false)));
        }

        foreach (IGrouping<LocalDate, int> week in Enumerable.Range(0, data.SetUps.Length).Where(one => data.Piles[data.SetUps[one].First].Day is not null)
            .GroupBy(one => Monday(data.Piles[data.SetUps[one].First].Day!.Value)).OrderBy(group => group.Key))
            Add(all, "week", NodaTime.Text.LocalDatePattern.Iso.Format(week.Key), GridAxes, week.Select(one => Mean(data, one, false)));
        double[] adjusted = FalseDiscovery.Adjusted(all.Select(one => one.Test.Probability).ToArray());
        return all.Select((one, index) => one with
        {
            Adjusted = adjusted[index],
            StandsOut = adjusted[index] <= GroupTest.Bound && Math.Sqrt((one.First * one.First) + (one.Second * one.Second)) >= site.LeastSizeMetres,
        }).ToArray();
    }

    private static void Add(List<GroupTest> all, string kind, string name, string axes, IEnumerable<(double First, double Second)> values)
    {
        (double First, double Second)[] given = values.ToArray();
        if (given.Length < LeastSetUps) return;
        double[] first = Array.ConvertAll(given, one => one.First), second = Array.ConvertAll(given, one => one.Second);
        all.Add(new GroupTest(kind, name, axes, given.Length, first.Average(), second.Average(), Hotelling.Of(first, second), 1, false));
    }

    private static (double First, double Second) Mean(ReviewData data, int place, bool axes)
    {
        SetUpSpan setUp = data.SetUps[place];
        (double east, double north) = data.Mean(setUp);
        return axes ? ((east * data.Sin[setUp.First]) + (north * data.Cos[setUp.First]), (east * data.Cos[setUp.First]) - (north * data.Sin[setUp.First])) : (east, north);
    }

    private static (double First, double Second) Against(SeriesMaker maker, SetUpSpan setUp, int casing)
    {
        (double forward, double starboard, _) = maker.Against(setUp, casing);
        return (forward, starboard);
    }

    private static int Heading(ReviewData data, int place)
        => (int)(Math.Round(data.Piles[data.SetUps[place].First].HeadingDegrees!.Value / HeadingGroup) * HeadingGroup) % 360;

    private static LocalDate Monday(LocalDate day) => day.PlusDays(1 - (int)day.DayOfWeek);
}
