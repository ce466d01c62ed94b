using NodaTime;

namespace SiteProgress.Core.Bias;

/// <summary>The piles of one set-up stand together; set-ups of a barge stand in order of time.</summary>
internal readonly record struct SetUpSpan(int Barge, int First, int Count, Instant Time);

/// <summary>The piles of a review, laid out for the search, with the deviations that no cause found so far explains.</summary>
internal sealed class ReviewData
{
    /// <summary>A deviation farther than this many spreads, and than <see cref="FarMetres"/>, tells of a wrong record, not of a bias.</summary>
    private const double FarSpreads = 12;

    private const double FarMetres = 1;

    public BiasPile[] Piles { get; private init; } = [];

    public string[] Barges { get; private init; } = [];

    public SetUpSpan[] SetUps { get; private init; } = [];

    /// <summary>Deviations still unexplained, metres.</summary>
    public double[] East { get; private init; } = [];

    public double[] North { get; private init; } = [];

    /// <summary>Sine and cosine of the heading; NaN where it is not known.</summary>
    public double[] Sin { get; private init; } = [];

    public double[] Cos { get; private init; } = [];

    /// <summary>Place of each pile's barge.</summary>
    public int[] BargeOf { get; private init; } = [];

    /// <summary>Places of the set-ups of each barge, in order of time.</summary>
    public int[][] SetUpsOf { get; private init; } = [];

    /// <summary>Casings of each barge, ascending.</summary>
    public int[][] CasingsOf { get; private init; } = [];

    public int Missing { get; private init; }

    public int Far { get; private init; }

    /// <summary>Spread of one casing about its set-up, and of set-ups, per axis, metres.</summary>
    public double OwnSpread { get; private set; }

    public double SharedSpread { get; private set; }

    public static ReviewData Of(IReadOnlyCollection<BiasPile> given)
    {
        BiasPile[] finite = given.Where(pile => pile.IsFinite).ToArray();
        BiasPile[] kept = Near(finite);
        string[] barges = kept.Select(pile => pile.Barge).Distinct().Order(StringComparer.Ordinal).ToArray();
        (BiasPile[] piles, SetUpSpan[] setUps) = LayOut(kept, barges);
        ReviewData data = new()
        {
            Piles = piles,
            Barges = barges,
            SetUps = setUps,
            BargeOf = setUps.SelectMany(setUp => Enumerable.Repeat(setUp.Barge, setUp.Count)).ToArray(),
            SetUpsOf = Enumerable.Range(0, barges.Length).Select(barge => Enumerable.Range(0, setUps.Length).Where(place => setUps[place].Barge == barge).ToArray()).ToArray(),
            CasingsOf = Array.ConvertAll(barges, barge => piles.Where(pile => pile.Barge == barge).Select(pile => pile.Casing).OfType<int>().Distinct().Order().ToArray()),
            East = Array.ConvertAll(piles, pile => pile.DeviationEastMetres),
            North = Array.ConvertAll(piles, pile => pile.DeviationNorthMetres),
            Sin = Array.ConvertAll(piles, pile => Math.Sin((pile.HeadingDegrees ?? double.NaN) * Math.PI / 180)),
            Cos = Array.ConvertAll(piles, pile => Math.Cos((pile.HeadingDegrees ?? double.NaN) * Math.PI / 180)),
            Missing = given.Count - finite.Length,
            Far = finite.Length - kept.Length,
        };
        (data.OwnSpread, data.SharedSpread) = data.Spreads();
        return data;
    }

    public double Forward(int pile) => (East[pile] * Sin[pile]) + (North[pile] * Cos[pile]);

    public double Starboard(int pile) => (East[pile] * Cos[pile]) - (North[pile] * Sin[pile]);

    public bool HasHeading(int pile) => !double.IsNaN(Sin[pile]);

    private static BiasPile[] Near(BiasPile[] piles)
    {
        if (piles.Length == 0) return piles;
        RobustScale east = RobustScale.Of(Array.ConvertAll(piles, pile => pile.DeviationEastMetres));
        RobustScale north = RobustScale.Of(Array.ConvertAll(piles, pile => pile.DeviationNorthMetres));
        return Array.FindAll(piles, pile =>
            Math.Abs(pile.DeviationEastMetres - east.Median) <= Math.Max(FarMetres, FarSpreads * east.Spread)
            && Math.Abs(pile.DeviationNorthMetres - north.Median) <= Math.Max(FarMetres, FarSpreads * north.Spread));
    }

    private static (BiasPile[] Piles, SetUpSpan[] SetUps) LayOut(BiasPile[] kept, string[] barges)
    {
        Dictionary<string, int> places = barges.Select((barge, place) => (barge, place)).ToDictionary(one => one.barge, one => one.place);
        Dictionary<(int Barge, string Name), List<BiasPile>> named = [];
        List<(int Barge, List<BiasPile> Piles)> groups = [];
        foreach (BiasPile pile in kept)
        {
            int barge = places[pile.Barge];
            if (pile.SetUp is { Length: > 0 } name)
            {
                if (named.TryGetValue((barge, name), out List<BiasPile>? members))
                {
                    members.Add(pile);
                    continue;
                }

                named[(barge, name)] = members = [pile];
                groups.Add((barge, members));
            }
            else
            {
                groups.Add((barge, [pile]));
            }
        }

        BiasPile[] piles = new BiasPile[kept.Length];
        List<SetUpSpan> setUps = new(groups.Count);
        int next = 0;
        foreach ((int barge, List<BiasPile> members, Instant time) in groups
            .Select(group => (group.Barge, group.Piles, Time: group.Piles.Min(pile => pile.Ended ?? Instant.MaxValue)))
            .OrderBy(group => group.Barge).ThenBy(group => group.Time).ThenBy(group => group.Piles[0].Number, StringComparer.Ordinal))
        {
            members.CopyTo(piles, next);
            setUps.Add(new SetUpSpan(barge, next, members.Count, time));
            next += members.Count;
        }

        return (piles, setUps.ToArray());
    }

    private (double Own, double Shared) Spreads()
    {
        List<double> own = new(2 * Piles.Length);
        List<double> shared = new(2 * SetUps.Length);
        double inverse = 0;
        foreach (SetUpSpan setUp in SetUps)
        {
            (double east, double north) = Mean(setUp);
            shared.Add(east);
            shared.Add(north);
            inverse += 1.0 / setUp.Count;
            if (setUp.Count < 2) continue;
            double factor = Math.Sqrt(setUp.Count / (setUp.Count - 1.0));
            for (int pile = setUp.First; pile < setUp.First + setUp.Count; pile++)
            {
                own.Add((East[pile] - east) * factor);
                own.Add((North[pile] - north) * factor);
            }
        }

        double ofOwn = own.Count == 0 ? 0 : Math.Max(LeastSpread, RobustScale.Of(own.ToArray()).Spread);
        double ofMeans = shared.Count == 0 ? 0 : RobustScale.Of(shared.ToArray()).Spread;
        // Without set-ups of two casings the two cannot be told apart, and nothing needs it.
        if (ofOwn == 0) return (Math.Max(LeastSpread, ofMeans), 0);
        return (ofOwn, Math.Sqrt(Math.Max(0, (ofMeans * ofMeans) - (ofOwn * ofOwn * inverse / SetUps.Length))));
    }

    /// <summary>Positions are recorded to the millimetre; no spread is taken for smaller.</summary>
    public const double LeastSpread = 0.001;

    public (double East, double North) Mean(SetUpSpan setUp)
    {
        (double east, double north) = (0, 0);
        for (int pile = setUp.First; pile < setUp.First + setUp.Count; pile++) (east, north) = (east + East[pile], north + North[pile]);
        return (east / setUp.Count, north / setUp.Count);
    }
}
