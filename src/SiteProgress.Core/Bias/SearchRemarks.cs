namespace SiteProgress.Core.Bias;

/// <summary>What the data of a site cannot show at all, whatever is found.</summary>
internal static class SearchRemarks
{
    /// <summary>Headings closer than this are as good as one when an offset is to be told from a shift of the grid.</summary>
    private const double SameHeadingDegrees = 20;

    public static IReadOnlyList<string> Of(ReviewData data, IReadOnlyCollection<BiasPile> piles, IReadOnlyCollection<CheckedPosition> checks)
    {
        List<string> remarks = [];
        if (piles.Count == 0) return ["There is no judged pile, so nothing can be said."];
        if (data.Missing > 0) remarks.Add($"{Piles(data.Missing)} left out: a coordinate is missing.");
        if (data.Far > 0) remarks.Add($"{Piles(data.Far)} left out: so far from the others that the record itself must be wrong; see the list of piles.");
        for (int place = 0; place < data.Barges.Length; place++)
        {
            string barge = data.Barges[place];
            double[] headings = data.SetUpsOf[place].Select(setUp => data.Piles[data.SetUps[setUp].First].HeadingDegrees).OfType<double>().ToArray();
            if (headings.Length == 0) remarks.Add($"No heading of {barge} is on the record: an offset of the barge cannot be looked for in its own axes.");
            else if (Range(headings) <= SameHeadingDegrees) remarks.Add($"{barge} worked on one heading only: an offset of the barge and a shift of the grid leave the same deviations.");
            if (checks.All(check => check.Barge != barge)) remarks.Add($"{barge} was never checked: an offset it both steers by and records with would not show.");
        }

        foreach (IGrouping<string?, BiasPile> zone in data.Piles.Where(pile => pile.Zone is not null).GroupBy(pile => pile.Zone).OrderBy(group => group.Key, StringComparer.Ordinal))
        {
            string[] barges = zone.Select(pile => pile.Barge).Distinct().Take(2).ToArray();
            if (barges.Length == 1 && data.Barges.Length > 1)
                remarks.Add($"Zone {zone.Key} was built by {barges[0]} only: what is wrong with the zone's setting-out and what is wrong with the barge look alike there.");
        }

        int without = data.Piles.Count(pile => string.IsNullOrEmpty(pile.SetUp));
        if (without > 0) remarks.Add($"{Piles(without)} without a set-up on the record: each counts as a set-up of its own, which makes the tests too sure.");
        if (data.Barges.Length == 1) remarks.Add("Only one barge built: nothing it does alike at every pile can be told from the grid unless its headings differ.");
        return remarks;
    }

    private static string Piles(int count) => count == 1 ? "1 pile is" : $"{count} piles are";

    /// <summary>The smallest arc that holds all headings, degrees.</summary>
    internal static double Range(double[] headings)
    {
        double[] ascending = headings.Select(heading => ((heading % 360) + 360) % 360).Order().ToArray();
        double gap = ascending[0] + 360 - ascending[^1];
        for (int index = 1; index < ascending.Length; index++) gap = Math.Max(gap, ascending[index] - ascending[index - 1]);
        return 360 - gap;
    }
}
