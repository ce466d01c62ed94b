using Npgsql;
using SiteProgress.Core.Deviations;
using SiteProgress.Jobs.Access;

namespace SiteProgress.Jobs.Deviations;

/// <summary>Reads what a selection of built piles shows about where they went: figures, by casing, by day, point by point.</summary>
public sealed class ReviewDeviations(NpgsqlDataSource store)
{
    /// <summary>Reads the review.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="selection">Which piles.</param>
    /// <param name="cancellation">Ends the reading.</param>
    [Needs(Right.See)]
    public async Task<DeviationReview> RunAsync(Permit permit, DeviationSelection selection, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        ArgumentNullException.ThrowIfNull(selection);
        SiteDeviations site = await SiteDeviations.ReadAsync(store, permit.Site, cancellation);
        return site.Review(selection, () => Make(site, selection));
    }

    private static DeviationReview Make(SiteDeviations site, DeviationSelection selection)
    {
        BuiltPile[] piles = Array.FindAll(site.Piles, selection.Holds);
        BuiltPile[] judged = Array.FindAll(piles, pile => pile.IsJudged);
        return new DeviationReview(
            selection,
            site.Sequence,
            site.Settings?.TimeZone,
            Figures(judged),
            piles.Length - judged.Length,
            piles.GroupBy(pile => (pile.Barge, pile.Casing)).OrderBy(group => group.Key.Barge, StringComparer.Ordinal).ThenBy(group => group.Key.Casing)
                .Select(group => ByCasing(group.Key.Barge, group.Key.Casing, group.ToArray())).ToArray(),
            judged.Where(pile => pile.WorkingDay is not null).GroupBy(pile => (pile.Barge, pile.Casing, pile.WorkingDay!.Value))
                .OrderBy(group => group.Key.Barge, StringComparer.Ordinal).ThenBy(group => group.Key.Casing).ThenBy(group => group.Key.Value)
                .Select(group => new CasingDay(
                    group.Key.Barge, group.Key.Casing, group.Key.Value, group.Count(),
                    group.Average(pile => pile.Deviation!.Value.EastMetres), group.Average(pile => pile.Deviation!.Value.NorthMetres))).ToArray(),
            judged.Select(pile => pile.Limit).Distinct().OrderBy(limit => limit.RadialMetres).ToArray(),
            piles.Where(pile => pile.Deviation is not null).Select(pile => pile.Point).ToArray(),
            Choices(site.Piles))
        {
            Top = ReviewPictures.Top(piles, site.Settings),
            Tip = ReviewPictures.Tip(piles, site.Settings),
            Inclination = ReviewPictures.Inclination(piles, site.Settings),
            Histogram = ReviewPictures.Histogram(judged),
            Charts = ReviewPictures.Charts(judged, site.Frame),
            Vectors = ReviewPictures.Vectors(judged),
        };
    }

    private static DeviationFigures? Figures(BuiltPile[] judged)
    {
        Dictionary<(string, string), int> setUps = [];
        int[] setUp = new int[judged.Length];
        for (int index = 0; index < judged.Length; index++)
        {
            BuiltPile pile = judged[index];
            // A pile without a set-up on its record is told from all others by its number.
            (string, string) key = (pile.Barge, pile.SetUp ?? "\u0000" + pile.Number);
            if (!setUps.TryGetValue(key, out setUp[index])) setUps[key] = setUp[index] = setUps.Count;
        }

        return DeviationFigures.Of(Array.ConvertAll(judged, pile => pile.Judged), setUp);
    }

    private static CasingDeviation ByCasing(string barge, int? casing, BuiltPile[] piles)
    {
        BuiltPile[] judged = Array.FindAll(piles, pile => pile.IsJudged);
        return new CasingDeviation(
            barge,
            casing,
            judged.Select(pile => pile.SetUp).Where(setUp => setUp is not null).Distinct().Count(),
            piles.Length - judged.Length,
            Figures(judged))
        {
            Box = ReviewPictures.Box(judged),
        };
    }

    private static ReviewChoices Choices(BuiltPile[] piles) => new(
        piles.Select(pile => pile.Zone).Distinct().Order(StringComparer.Ordinal).ToArray(),
        piles.Select(pile => pile.Barge).Where(barge => barge.Length > 0).Distinct().Order(StringComparer.Ordinal).ToArray(),
        piles.Select(pile => pile.Casing).OfType<int>().Distinct().Order().ToArray(),
        piles.Min(pile => pile.WorkingDay),
        piles.Max(pile => pile.WorkingDay))
    {
        Shifts = piles.Select(pile => pile.Shift).OfType<string>().Distinct().Order(StringComparer.Ordinal).ToArray(),
    };
}
