using MathNet.Numerics.Distributions;

namespace SiteProgress.Core.Bias;

/// <summary>A found run with the cause that explains it best and those beside it.</summary>
internal sealed record Explained(
    FoundRun Run,
    CauseFit Named,
    IReadOnlyList<CauseFit> Others,
    Func<int, (double East, double North)> EffectAt,
    int[] SetUps,
    double SizeMetres,
    double SizeStandardError,
    double Factor,
    int Count);

/// <summary>Compares the single causes that may be behind a found run.</summary>
internal sealed class CauseSearch(ReviewData data, SeriesMaker maker, BiasSite site)
{
    private readonly CauseColumns effects = new(data, site);

    /// <summary>A cause with its columns; those it shares with every other cause of the comparison stand first and are not told.</summary>
    private sealed record Candidate(Cause Cause, CauseColumn[] Own, bool MayBeNamed);

    /// <summary>The best explanation; null when none can be fitted.</summary>
    public Explained? Explain(FoundRun run)
    {
        // How long errors last is judged anew without what was found: a bias lasts too, and would pass for weather.
        if (Explain(run, run.Series.Lasting) is not { } first) return null;
        (double[] east, double[] north) = ([.. data.East], [.. data.North]);
        TakeOff(first);
        double lasting = maker.Alike(run.Series).Select(series => series.Lasting).FirstOrDefault(1);
        east.CopyTo(data.East, 0);
        north.CopyTo(data.North, 0);
        return lasting < run.Series.Lasting ? Explain(run, lasting) : first;
    }

    private Explained? Explain(FoundRun run, double lasting)
    {
        int[] setUps = SetUpsOf(run);
        (CauseColumn[] shared, Candidate[] candidates) = CandidatesOf(run.Series);
        CauseColumn[] columns = shared.Concat(candidates.SelectMany(one => one.Own)).Distinct().ToArray();
        CauseComparison comparison = new(data, effects, columns, setUps, lasting);
        (Candidate Candidate, int[] Places, Fit Fit)[] fits = candidates
            .Select(one => (one, Places: one.Own.Concat(shared).Distinct().Select(column => Array.IndexOf(columns, column)).ToArray()))
            .Select(one => (one.one, one.Places, comparison.FitOf(one.Places)))
            .ToArray();
        if (fits.Length == 0) return null;
        Fit full = comparison.FitOf(Enumerable.Range(0, columns.Length).ToArray());
        CauseFit[] told = fits.Select(one => Told(one.Candidate, one.Fit, comparison.RestMetres(one.Fit, full))).ToArray();
        int best = Best(fits.Select(one => (one.Candidate.MayBeNamed, one.Fit)).ToArray(), told, comparison.Count);
        CauseFit[] others = Enumerable.Range(0, fits.Length).Where(index => index != best)
            .Select(index => told[index] with { StandardErrorsTogether = Together(comparison, fits[best].Candidate, fits[best].Places, fits[index].Places) })
            .OrderBy(one => one.Excluded).ThenByDescending(one => one.ChanceOfRest).ToArray();
        (double size, double error) = Size(fits[best].Candidate, fits[best].Fit, setUps);
        return new Explained(
            run, told[best], others, EffectOf(fits[best].Candidate, fits[best].Fit), setUps, size, error,
            StudentT.InvCDF(0, 1, Math.Max(1, comparison.Count - fits[best].Fit.Rank), 0.975), comparison.Count);
    }

    /// <summary>Takes the named cause off the deviations of the run's set-ups.</summary>
    public void TakeOff(Explained explained)
    {
        foreach (int place in explained.SetUps)
        {
            SetUpSpan setUp = data.SetUps[place];
            for (int pile = setUp.First; pile < setUp.First + setUp.Count; pile++)
            {
                (double east, double north) = explained.EffectAt(pile);
                data.East[pile] -= east;
                data.North[pile] -= north;
            }
        }
    }

    /// <summary>What the named cause does to a pile, metres east and north; zero where it has no hold or no heading is known.</summary>
    private Func<int, (double East, double North)> EffectOf(Candidate candidate, Fit fit)
    {
        (CauseColumn Column, double Value)[] named = candidate.Own.Select((column, index) => (column, fit.Value(index))).ToArray();
        return pile =>
        {
            int barge = data.BargeOf[pile];
            (double east, double north) = (0, 0);
            foreach ((CauseColumn column, double value) in named)
            {
                if (column.NeedsHeading && !data.HasHeading(pile)) continue;
                (double e, double n) = effects.Of(column, pile, barge);
                (east, north) = (east + (value * e), north + (value * n));
            }

            return (east, north);
        };
    }

    private int[] SetUpsOf(FoundRun run)
    {
        Series series = run.Series;
        NodaTime.Instant from = data.SetUps[series.SetUps[run.From]].Time, to = data.SetUps[series.SetUps[run.To]].Time;
        bool casing = series.Kind == SeriesKind.Casing;
        return Enumerable.Range(0, data.SetUps.Length)
            .Where(place => data.SetUps[place].Time >= from && data.SetUps[place].Time <= to && (!casing || data.SetUps[place].Barge == series.Barge)).ToArray();
    }

    private (CauseColumn[] Shared, Candidate[] Candidates) CandidatesOf(Series series) => series.Kind switch
    {
        SeriesKind.Casing => ([.. Grid, .. Offset(series.Barge)], OfCasings(series).ToArray()),
        SeriesKind.SiteGrid or SeriesKind.SiteTurn => ([], OfSite().ToArray()),
        _ => ([], OfBarge(series.Barge).ToArray()),
    };

    private IEnumerable<Candidate> OfCasings(Series series)
    {
        string barge = data.Barges[series.Barge];
        foreach (int casing in data.CasingsOf[series.Barge].OrderBy(number => number != series.Casing))
        {
            yield return new Candidate(
                new Cause(CauseKind.CasingOffset, barge, casing),
                [new(Effect.Forward, series.Barge, casing), new(Effect.Starboard, series.Barge, casing)], true);
        }

        if (effects.KnowsArms(series.Barge)) yield return new Candidate(new Cause(CauseKind.Heading, barge, null), [new(Effect.Heading, series.Barge, null)], true);
    }

    private IEnumerable<Candidate> OfBarge(int place)
    {
        string barge = data.Barges[place];
        yield return new Candidate(new Cause(CauseKind.BargeOffset, barge, null), Offset(place), true);
        foreach (Candidate one in OfGrid()) yield return one;
        // With the arms alike a heading error is nothing but an offset to starboard, so it is told beside it and not instead of it.
        if (effects.KnowsArms(place)) yield return new Candidate(new Cause(CauseKind.Heading, barge, null), [new(Effect.Heading, place, null)], false);
        yield return new Candidate(new Cause(CauseKind.List, barge, null), [new(Effect.Starboard, place, null)], false);
    }

    private IEnumerable<Candidate> OfSite()
    {
        foreach (Candidate one in OfGrid()) yield return one;
        int[] known = Enumerable.Range(0, data.Barges.Length).Where(place => data.SetUps.Any(setUp => setUp.Barge == place && data.HasHeading(setUp.First))).ToArray();
        if (known.Length == data.Barges.Length)
            yield return new Candidate(new Cause(CauseKind.OffsetPerBarge, null, null), known.SelectMany(Offset).ToArray(), true);
    }

    private static IEnumerable<Candidate> OfGrid()
    {
        yield return new Candidate(new Cause(CauseKind.GridShift, null, null), Grid, true);
        yield return new Candidate(new Cause(CauseKind.GridTurn, null, null), [new(Effect.Turn, -1, null), .. Grid], true);
    }

    private static CauseColumn[] Grid => [new(Effect.East, -1, null), new(Effect.North, -1, null)];

    private static CauseColumn[] Offset(int barge) => [new(Effect.Forward, barge, null), new(Effect.Starboard, barge, null)];

    private CauseFit Told(Candidate candidate, Fit fit, double rest) => new(
        candidate.Cause,
        candidate.Own.Select((column, index) => Value(column, fit, index)).ToArray(),
        fit.ChanceOfRest,
        rest,
        fit.ChanceOfRest < CauseFit.ExclusionChance && rest >= site.LeastSizeMetres / 3,
        null);

    private CauseValue Value(CauseColumn column, Fit fit, int index)
    {
        // A turn is fitted as metres at a distance; a grid turned clockwise moves points clockwise, and the column counts the other way.
        double factor = column.Effect switch
        {
            Effect.Turn => -180 / Math.PI / effects.TypicalRadius,
            Effect.Heading => 180 / Math.PI,
            _ => 1,
        };
        string name = column.Effect switch
        {
            Effect.East => "east",
            Effect.North => "north",
            Effect.Forward => "forward",
            Effect.Starboard => "starboard",
            _ => "angle",
        };
        return new CauseValue(name, column.Barge < 0 ? null : data.Barges[column.Barge], fit.Value(index) * factor, fit.StandardError(index) * Math.Abs(factor));
    }

    /// <summary>The cause with most explained for its numbers (Schwarz 1978), among those that are not excluded where there are any.</summary>
    private static int Best((bool MayBeNamed, Fit Fit)[] fits, CauseFit[] told, int count)
    {
        double Cost(int index) => (fits[index].Fit.Rank * Math.Log(Math.Max(2, count))) - fits[index].Fit.Explained;
        int[] named = Enumerable.Range(0, fits.Length).Where(index => fits[index].MayBeNamed).ToArray();
        int[] possible = Array.FindAll(named, index => !told[index].Excluded);
        return (possible.Length > 0 ? possible : named).MinBy(Cost);
    }

    private static double?[] Together(CauseComparison comparison, Candidate named, int[] places, int[] others)
    {
        Fit fit = comparison.FitOf([.. places, .. others.Except(places)]);
        return Enumerable.Range(0, named.Own.Length).Select(index => fit.IsDetermined ? (double?)fit.StandardError(index) : null).ToArray();
    }

    /// <summary>Length of an offset; of other causes the largest effect at a pile of the run.</summary>
    private (double Size, double Error) Size(Candidate candidate, Fit fit, int[] setUps)
    {
        if (candidate.Cause.Kind is CauseKind.GridShift or CauseKind.BargeOffset or CauseKind.CasingOffset)
        {
            (double x, double y) = (fit.Value(0), fit.Value(1));
            double size = Math.Sqrt((x * x) + (y * y));
            double variance = (x * x * fit.Covariance(0, 0)) + (2 * x * y * fit.Covariance(0, 1)) + (y * y * fit.Covariance(1, 1));
            return (size, size > 0 ? Math.Sqrt(Math.Max(0, variance)) / size : 0);
        }

        Func<int, (double East, double North)> effect = EffectOf(candidate, fit);
        double largest = 0;
        foreach (int place in setUps)
        {
            for (int pile = data.SetUps[place].First; pile < data.SetUps[place].First + data.SetUps[place].Count; pile++)
            {
                (double east, double north) = effect(pile);
                largest = Math.Max(largest, Math.Sqrt((east * east) + (north * north)));
            }
        }

        double share = Enumerable.Range(0, candidate.Own.Length).Max(index => fit.StandardError(index) / Math.Max(1e-12, Math.Abs(fit.Value(index))));
        return (largest, candidate.Own.Length == 1 ? largest * share : largest * Math.Min(1, share));
    }
}
