using NodaTime;

namespace SiteProgress.Core.Forecast;

/// <summary>How many runs were done on which day, for the site and each zone.</summary>
internal sealed class FinishCounts
{
    // The runs are cut into as many streams of chance, always the same number, so that the answer owes nothing to the machine.
    private const int Streams = 4;

    // Place 0 is "before the first day"; the last place is "not within the days looked ahead".
    private static readonly int Places = FutureDays.Most + 2;

    private readonly int _runs;
    private readonly int[][] _counts;

    private FinishCounts(int runs, int[][] counts) => (_runs, _counts) = (runs, counts);

    public static FinishCounts Of(Simulation simulation, int zones, int runs)
    {
        int[][][] byStream = new int[Streams][][];
        Parallel.For(0, Streams, stream =>
        {
            int ofStream = (runs / Streams) + (stream < runs % Streams ? 1 : 0);
            byStream[stream] = Play(simulation.Beside(stream), zones, ofStream);
        });
        int[][] counts = byStream[0];
        for (int stream = 1; stream < Streams; stream++)
        {
            for (int which = 0; which <= zones; which++)
            {
                for (int place = 0; place < Places; place++) counts[which][place] += byStream[stream][which][place];
            }
        }

        return new FinishCounts(runs, counts);
    }

    public FinishDates Site(FutureDays future) => Dates(_counts[^1], future);

    public FinishDates Zone(int zone, FutureDays future) => Dates(_counts[zone], future);

    public DayChance[] Chances(FutureDays future)
    {
        List<DayChance> chances = [];
        int done = 0;
        for (int place = 0; place < Places - 1; place++)
        {
            if (_counts[^1][place] == 0) continue;
            done += _counts[^1][place];
            chances.Add(new DayChance(future.DayAt(place - 1), (double)done / _runs));
        }

        return chances.ToArray();
    }

    public double RatioBy(LocalDate day, FutureDays future)
    {
        int done = 0;
        for (int place = 0; place < Places - 1 && future.DayAt(place - 1) <= day; place++) done += _counts[^1][place];
        return (double)done / _runs;
    }

    private static int[][] Play(Simulation simulation, int zones, int runs)
    {
        int[][] counts = Enumerable.Range(0, zones + 1).Select(_ => new int[Places]).ToArray();
        Span<int> finish = stackalloc int[zones];
        for (int run = 0; run < runs; run++)
        {
            counts[zones][simulation.Finish(finish) + 1]++;
            for (int zone = 0; zone < zones; zone++) counts[zone][finish[zone] + 1]++;
        }

        return counts;
    }

    private FinishDates Dates(int[] counts, FutureDays future)
    {
        (int? first, int? middle, int? last) = (At(counts, 0.1), At(counts, 0.5), At(counts, 0.9));
        LocalDate? Day(int? place) => place is { } there ? future.DayAt(there - 1) : null;
        return new FinishDates(Day(first), Day(middle), Day(last))
        {
            InsideRatio = first is { } from && last is { } to ? counts.AsSpan(from, to - from + 1).ToArray().Sum() / (double)_runs : null,
        };
    }

    /// <summary>The first place by which at least this share of the runs was done.</summary>
    private int? At(int[] counts, double share)
    {
        int wanted = (int)Math.Ceiling(share * _runs), done = 0;
        for (int place = 0; place < Places - 1; place++)
        {
            done += counts[place];
            if (done >= wanted) return place;
        }

        return null;
    }
}
