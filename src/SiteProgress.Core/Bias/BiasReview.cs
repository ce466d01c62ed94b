using NodaTime;

namespace SiteProgress.Core.Bias;

/// <summary>
/// Tells noise from bias in the deviations of a site. One run of set-ups after another is found whose mean is not zero, the causes
/// that may be behind it are compared, the one that explains it best is taken off, and the search begins anew.
/// </summary>
public static class BiasReview
{
    /// <summary>Bound on the chance that a site without bias shows anything: what runs by chance is bought at this price in all.</summary>
    public static double FalseClaimChance => 0.01;

    private const int MostRounds = 12;

    /// <summary>Reviews built piles.</summary>
    /// <param name="piles">Piles whose position may be held against a limit, any order.</param>
    /// <param name="checks">Check measurements, any order.</param>
    /// <param name="site">What is taken from the site.</param>
    public static BiasFindings Run(IReadOnlyCollection<BiasPile> piles, IReadOnlyCollection<CheckedPosition> checks, BiasSite site)
    {
        ArgumentNullException.ThrowIfNull(piles);
        ArgumentNullException.ThrowIfNull(checks);
        ArgumentNullException.ThrowIfNull(site);
        ReviewData data = ReviewData.Of(piles);
        IReadOnlyList<GroupTest> groups = GroupTests.Of(data, site);
        IReadOnlyList<BiasClaim> claims = Search(data, checks, site);
        return new BiasFindings(
            claims,
            groups,
            SearchRemarks.Of(data, piles, checks),
            data.Piles.Length,
            data.SetUps.Length,
            data.Far,
            data.Missing,
            data.OwnSpread,
            data.SharedSpread);
    }

    private static List<BiasClaim> Search(ReviewData data, IReadOnlyCollection<CheckedPosition> checks, BiasSite site)
    {
        List<BiasClaim> claims = [];
        if (data.SetUps.Length == 0) return claims;
        SeriesMaker maker = new(data);
        CauseSearch causes = new(data, maker, site);
        for (int round = 0; round < MostRounds; round++)
        {
            IReadOnlyList<Series> all = maker.All();
            double looks = all.Sum(series => ChangeScan.Looks(series.Length));
            FoundRun[] found = all.Select(ChangeScan.Best).OfType<FoundRun>().Where(run => run.Chance * looks <= FalseClaimChance).OrderByDescending(run => run.Statistic).ToArray();
            if (found.Length == 0 || Explain(data, causes, found) is not { } explained) break;
            // What is taken off is no longer there to be found, named or not.
            causes.TakeOff(explained);
            if (explained.SizeMetres >= site.LeastSizeMetres)
                claims.Add(ClaimMaker.Of(data, explained, Math.Min(1, explained.Run.Chance * looks), checks, site));
        }

        return claims;
    }

    /// <summary>
    /// Explains the run that stands out most. A fault of one casing shows in its barge too, and one of a barge in the site, so the
    /// narrower series is asked first where it shows the same thing.
    /// </summary>
    private static Explained? Explain(ReviewData data, CauseSearch causes, FoundRun[] found)
    {
        FoundRun best = found[0];
        if (best.Series.Barge >= 0)
            return causes.Explain(Narrower(data, best, found, run => run.Series.Kind == SeriesKind.Casing && run.Series.Barge == best.Series.Barge) ?? best);
        Explained? explained = causes.Explain(best);
        bool whole = explained is { Named: { Excluded: false, Cause.Kind: CauseKind.GridShift or CauseKind.GridTurn } };
        return !whole && Narrower(data, best, found, run => run.Series.Barge >= 0) is { } narrower
            ? Explain(data, causes, [narrower, .. found.Where(run => run.Series.Barge >= 0)])
            : explained;
    }

    private static FoundRun? Narrower(ReviewData data, FoundRun of, FoundRun[] found, Func<FoundRun, bool> which)
        => found.Where(which).FirstOrDefault(run => Time(data, run, run.From) <= Time(data, of, of.To) && Time(data, run, run.To) >= Time(data, of, of.From));

    private static Instant Time(ReviewData data, FoundRun run, int place) => data.SetUps[run.Series.SetUps[place]].Time;
}
