namespace SiteProgress.Core.Bias;

/// <summary>Makes the series that are searched from the deviations that are still unexplained.</summary>
internal sealed class SeriesMaker(ReviewData data)
{
    private readonly int[] byTime = Enumerable.Range(0, data.SetUps.Length).OrderBy(place => data.SetUps[place].Time).ThenBy(place => place).ToArray();

    /// <summary>All series, those of one kind with a common word on how long errors last.</summary>
    public IReadOnlyList<Series> All() => Enum.GetValues<SeriesKind>().SelectMany(Of).ToArray();

    /// <summary>All series of the kind of this one, made anew.</summary>
    public IReadOnlyList<Series> Alike(Series series) => Of(series.Kind);

    private Series[] Of(SeriesKind kind)
    {
        int[] barges = Enumerable.Range(0, data.Barges.Length).ToArray();
        Series[] all = kind switch
        {
            SeriesKind.Casing => barges.SelectMany(barge => Casings(barge)).ToArray(),
            SeriesKind.BargeAxes => Array.ConvertAll(barges, barge => Means(kind, barge, OfBarge(barge))),
            // Of a single barge the grid is the site's.
            SeriesKind.BargeGrid when barges.Length == 1 => [],
            SeriesKind.BargeGrid => Array.ConvertAll(barges, barge => Means(kind, barge, OfBarge(barge))),
            SeriesKind.SiteGrid => [Means(kind, -1, byTime)],
            _ => [Turn()],
        };
        Series.SetLasting(all);
        return all;
    }

    private int[] OfBarge(int barge) => data.SetUpsOf[barge];

    /// <summary>Each casing of a barge against the mean of the others of the same set-up: what they share drops out.</summary>
    public IEnumerable<Series> Casings(int barge)
        => data.CasingsOf[barge].Length < 2 ? [] : data.CasingsOf[barge].Select(casing => Casing(barge, casing, OfBarge(barge)));

    private Series Casing(int barge, int casing, int[] setUps)
    {
        List<int> places = [];
        List<double> forward = [], starboard = [], strength = [];
        foreach (int place in setUps)
        {
            (double f, double s, int others) = Against(data.SetUps[place], casing);
            if (others == 0) continue;
            // The variance of the difference is 1 + 1/m of one casing's own; scaling makes all values equally sure.
            double scale = Math.Sqrt(1 / (1 + (1.0 / others)));
            places.Add(place);
            forward.Add(f * scale);
            starboard.Add(s * scale);
            strength.Add(scale);
        }

        return new Series(SeriesKind.Casing, barge, casing, [.. places], [.. forward], [.. starboard], [.. strength]);
    }

    /// <summary>A casing's deviation less the mean of its neighbours', forward and starboard, and how many neighbours there are.</summary>
    public (double Forward, double Starboard, int Others) Against(SetUpSpan setUp, int casing)
    {
        (double ownForward, double ownStarboard, int own) = (0, 0, 0);
        (double forward, double starboard, int others) = (0, 0, 0);
        for (int pile = setUp.First; pile < setUp.First + setUp.Count; pile++)
        {
            if (!data.HasHeading(pile) || data.Piles[pile].Casing is not { } number) continue;
            if (number == casing) (ownForward, ownStarboard, own) = (ownForward + data.Forward(pile), ownStarboard + data.Starboard(pile), own + 1);
            else (forward, starboard, others) = (forward + data.Forward(pile), starboard + data.Starboard(pile), others + 1);
        }

        return own == 0 || others == 0 ? (0, 0, 0) : ((ownForward / own) - (forward / others), (ownStarboard / own) - (starboard / others), others);
    }

    /// <summary>Means of set-ups; those of fewer casings are less sure.</summary>
    public Series Means(SeriesKind kind, int barge, int[] setUps)
    {
        (double own, double shared) = (data.OwnSpread * data.OwnSpread, data.SharedSpread * data.SharedSpread);
        List<int> places = [];
        List<double> first = [], second = [], strength = [];
        foreach (int place in setUps)
        {
            SetUpSpan setUp = data.SetUps[place];
            (double x, double y) = data.Mean(setUp);
            if (kind == SeriesKind.BargeAxes)
            {
                if (!data.HasHeading(setUp.First)) continue;
                (x, y) = ((x * data.Sin[setUp.First]) + (y * data.Cos[setUp.First]), (x * data.Cos[setUp.First]) - (y * data.Sin[setUp.First]));
            }

            double scale = Math.Sqrt((shared + (own / 3)) / (shared + (own / setUp.Count)));
            places.Add(place);
            first.Add(x * scale);
            second.Add(y * scale);
            strength.Add(scale);
        }

        return new Series(kind, barge, null, [.. places], [.. first], [.. second], [.. strength]);
    }

    /// <summary>How far each set-up goes round the middle of the site, against its distance from there.</summary>
    private Series Turn()
    {
        (double east, double north) = (data.Piles.Length == 0 ? (0, 0) : (data.Piles.Average(pile => pile.EastMetres), data.Piles.Average(pile => pile.NorthMetres)));
        double[] away = data.SetUps.Select(setUp => Math.Sqrt(Square(data.Piles[setUp.First].EastMetres - east) + Square(data.Piles[setUp.First].NorthMetres - north))).ToArray();
        double typical = Math.Sqrt(away.Length == 0 ? 0 : away.Average(Square));
        if (!(typical > 1)) return new Series(SeriesKind.SiteTurn, -1, null, [], [], [], []);
        double[] round = new double[byTime.Length];
        double[] strength = new double[byTime.Length];
        for (int index = 0; index < byTime.Length; index++)
        {
            SetUpSpan setUp = data.SetUps[byTime[index]];
            (double x, double y) = data.Mean(setUp);
            BiasPile pile = data.Piles[setUp.First];
            double reach = Math.Max(away[byTime[index]], 1e-9);
            round[index] = ((-x * (pile.NorthMetres - north)) + (y * (pile.EastMetres - east))) / reach;
            strength[index] = away[byTime[index]] / typical;
        }

        return new Series(SeriesKind.SiteTurn, -1, null, byTime, round, new double[round.Length], strength);
    }

    private static double Square(double value) => value * value;
}
