using MathNet.Numerics.LinearAlgebra;
using NodaTime;

namespace SiteProgress.Core.Levels;

/// <summary>
/// The tide told beyond the readings of a gauge: a mean and the constituents that so long a record tells apart, fitted to the
/// readings by least squares. It knows no weather: how far readings lay from it is its spread.
/// </summary>
/// <remarks>
/// Method: harmonic analysis with a Rayleigh criterion of 1; Foreman, Manual for tidal heights analysis and prediction, Pacific Marine
/// Science Report 77-10 (1977), cited from memory. Nodal corrections are left out: phases and amplitudes are those of the record itself,
/// which serves for weeks beside it, not for years. Speeds follow from the Doodson numbers; the tests work them out again.
/// </remarks>
public sealed class TidePrediction
{
    // In the order in which they are worth having; degrees an hour.
    private static readonly (string Name, double DegreesPerHour)[] Constituents =
    [
        ("M2", 28.9841042), ("K1", 15.0410686), ("O1", 13.9430356), ("S2", 30.0), ("N2", 28.4397295), ("M4", 57.9682084), ("MS4", 58.9841042),
        ("Q1", 13.3986609), ("M6", 86.9523127), ("K2", 30.0821373), ("P1", 14.9589314), ("MSf", 1.0158958),
    ];

    private readonly Instant _middle;
    private readonly double[] _speeds;
    private readonly double[] _fitted;

    private TidePrediction(Instant from, Instant to, Instant middle, (string Name, double DegreesPerHour)[] told, double[] fitted, double spread)
    {
        (From, To, _middle, _fitted, SpreadMetres) = (from, to, middle, fitted, spread);
        Told = [.. told.Select(one => one.Name)];
        _speeds = [.. told.Select(one => one.DegreesPerHour * Math.PI / 180)];
    }

    /// <summary>Shortest record that tells the two greatest constituents, M2 and S2, apart: 14.8 days.</summary>
    public static Duration ShortestRecord => Duration.FromHours(360 / (30.0 - 28.9841042));

    /// <summary>First reading used.</summary>
    public Instant From { get; }

    /// <summary>Last reading used.</summary>
    public Instant To { get; }

    /// <summary>Constituents the record tells apart.</summary>
    public IReadOnlyList<string> Told { get; }

    /// <summary>Standard deviation of the readings from the fitted tide, metres: weather, waves, and the constituents left out.</summary>
    public double SpreadMetres { get; }

    /// <summary>Fits the tide.</summary>
    /// <param name="levels">Water levels at the site, metres on its datum, with their moments; any order.</param>
    /// <returns>The tide; null where the record is shorter than <see cref="ShortestRecord"/> or has fewer than two readings a constituent.</returns>
    public static TidePrediction? Of(IReadOnlyList<(Instant At, double LevelMetres)> levels)
    {
        ArgumentNullException.ThrowIfNull(levels);
        if (levels.Count < 50) return null;
        // More readings than this tell nothing new and only take time.
        int every = 1 + (levels.Count / 20_000);
        (Instant At, double LevelMetres)[] used = [.. levels.OrderBy(one => one.At).Where((_, place) => place % every == 0)];
        (Instant from, Instant to) = (used[0].At, used[^1].At);
        Duration length = to - from;
        if (length < ShortestRecord) return null;
        List<(string Name, double DegreesPerHour)> told = [];
        foreach ((string Name, double DegreesPerHour) one in Constituents)
        {
            if (one.DegreesPerHour * length.TotalHours >= 360 && told.TrueForAll(other => Math.Abs(one.DegreesPerHour - other.DegreesPerHour) * length.TotalHours >= 360)) told.Add(one);
        }

        int unknowns = 1 + (2 * told.Count);
        if (used.Length < 2 * unknowns) return null;
        Instant middle = from + (length / 2);
        double[] speeds = [.. told.Select(one => one.DegreesPerHour * Math.PI / 180)];
        Matrix<double> rows = Matrix<double>.Build.Dense(used.Length, unknowns, (row, column) => Term(speeds, column, (used[row].At - middle).TotalHours));
        Vector<double> read = Vector<double>.Build.Dense(used.Length, row => used[row].LevelMetres);
        Vector<double> fitted = rows.TransposeThisAndMultiply(rows).Cholesky().Solve(rows.TransposeThisAndMultiply(read));
        double squares = (read - (rows * fitted)).DotProduct(read - (rows * fitted));
        return new TidePrediction(from, to, middle, [.. told], [.. fitted], Math.Sqrt(squares / (used.Length - unknowns)));
    }

    /// <summary>Level of the tide at a moment, metres on the site's datum, without weather.</summary>
    public double AtMetres(Instant moment)
    {
        double hours = (moment - _middle).TotalHours, level = 0;
        for (int column = 0; column < _fitted.Length; column++) level += _fitted[column] * Term(_speeds, column, hours);
        return level;
    }

    /// <summary>High and low waters between two moments, to the minute, in order.</summary>
    public IReadOnlyList<Instant> Turns(Instant from, Instant to)
    {
        List<Instant> turns = [];
        Duration step = Duration.FromMinutes(6);
        bool rising = AtMetres(from) >= AtMetres(from - step);
        for (Instant at = from; at < to; at += step)
        {
            bool rises = AtMetres(at + step) >= AtMetres(at);
            if (rises == rising) continue;
            rising = rises;
            Instant turn = Turn(at - step, at + step, !rises);
            if (turn >= from && turn < to) turns.Add(turn);
        }

        return turns;
    }

    /// <summary>The highest or lowest level in a span that holds one of them, by halving the slope's sign.</summary>
    private Instant Turn(Instant low, Instant high, bool isHigh)
    {
        while (high - low > Duration.FromSeconds(20))
        {
            Instant middle = low + ((high - low) / 2);
            bool rises = AtMetres(middle + Duration.FromSeconds(5)) >= AtMetres(middle - Duration.FromSeconds(5));
            if (rises == isHigh) low = middle;
            else high = middle;
        }

        return low;
    }

    private static double Term(double[] speeds, int column, double hours)
        => column == 0 ? 1 : column % 2 == 1 ? Math.Cos(speeds[(column - 1) / 2] * hours) : Math.Sin(speeds[(column - 1) / 2] * hours);
}
