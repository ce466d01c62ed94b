using NodaTime;
using SiteProgress.Core.Deviations;

namespace SiteProgress.Core.Bias;

/// <summary>Puts together what a found bias means.</summary>
internal static class ClaimMaker
{
    public static BiasClaim Of(ReviewData data, Explained explained, double chance, IReadOnlyCollection<CheckedPosition> checks, BiasSite site)
    {
        int[] touched = Touched(data, explained);
        BiasPile[] piles = Array.ConvertAll(touched, pile => data.Piles[pile]);
        Cause cause = explained.Named.Cause;
        Instant? from = piles.Min(pile => pile.Ended), to = piles.Max(pile => pile.Ended);
        BiasClaim claim = new(
            explained.Named,
            piles.Min(pile => pile.Day),
            piles.Max(pile => pile.Day),
            from,
            to,
            explained.Run.To == explained.Run.Series.Length - 1,
            explained.SizeMetres,
            explained.SizeStandardError,
            explained.Count,
            explained.Factor,
            chance,
            explained.Others,
            Meaning(data, explained, touched),
            CheckReview.Support(cause, explained.Named, from, to, checks),
            "",
            ClaimSentences.Remarks(data, explained, site),
            Array.ConvertAll(piles, pile => pile.Number));
        return claim with { Sentence = ClaimSentences.Of(claim) };
    }

    private static int[] Touched(ReviewData data, Explained explained)
    {
        Cause cause = explained.Named.Cause;
        return explained.SetUps
            .SelectMany(place => Enumerable.Range(data.SetUps[place].First, data.SetUps[place].Count))
            .Where(pile => (cause.Barge is null || data.Piles[pile].Barge == cause.Barge) && (cause.Casing is null || data.Piles[pile].Casing == cause.Casing))
            .ToArray();
    }

    private static TouchedPiles Meaning(ReviewData data, Explained explained, int[] touched)
    {
        double[] now = new double[touched.Length], then = new double[touched.Length];
        (int withinNow, int withinThen) = (0, 0);
        for (int index = 0; index < touched.Length; index++)
        {
            BiasPile pile = data.Piles[touched[index]];
            (double east, double north) = explained.EffectAt(touched[index]);
            now[index] = Length(pile.JudgedEastMetres, pile.JudgedNorthMetres);
            then[index] = Length(pile.JudgedEastMetres - east, pile.JudgedNorthMetres - north);
            if (pile.Limit.Hold(pile.JudgedEastMetres, pile.JudgedNorthMetres).Answer.IsMet) withinNow++;
            if (pile.Limit.Hold(pile.JudgedEastMetres - east, pile.JudgedNorthMetres - north).Answer.IsMet) withinThen++;
        }

        return new TouchedPiles(
            touched.Length, withinNow, withinThen,
            touched.Length == 0 ? 0 : Quantiles.Median(now), touched.Length == 0 ? 0 : Quantiles.Median(then));
    }

    private static double Length(double east, double north) => Math.Sqrt((east * east) + (north * north));
}
