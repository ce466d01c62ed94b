namespace SiteProgress.Core.Deviations;

/// <summary>A deviation that may be held against a limit, with that limit.</summary>
/// <param name="Deviation">As-built minus planned.</param>
/// <param name="LimitMetres">Radial limit in force for the pile, metres.</param>
public readonly record struct JudgedDeviation(PositionDeviation Deviation, double LimitMetres)
{
    /// <summary>True when the unrounded radial deviation is at most the limit (&lt;=).</summary>
    public bool IsWithinLimit => AgainstLimit.IsAtMost(Deviation.RadialMetres, LimitMetres);
}

/// <summary>What a selection of deviations amounts to, metres.</summary>
/// <param name="Count">How many deviations.</param>
/// <param name="East">dE, along CRS grid east.</param>
/// <param name="North">dN, along CRS grid north.</param>
/// <param name="Along">Along the first axis of the site grid.</param>
/// <param name="Across">Along the second axis of the site grid.</param>
/// <param name="RadialRmseMetres">Root mean square of the radial deviations, metres.</param>
/// <param name="MedianRadialMetres">Half of the radial deviations are at most this, metres.</param>
/// <param name="Percentile95RadialMetres">95 % of the radial deviations are at most this, metres.</param>
/// <param name="LargestRadialMetres">Largest radial deviation, metres.</param>
/// <param name="Accuracy95">Radius at 95 % confidence after the NSSDA.</param>
/// <param name="WithinLimit">How many are within their limit.</param>
public sealed record DeviationFigures(
    int Count,
    AxisFigures East,
    AxisFigures North,
    AxisFigures Along,
    AxisFigures Across,
    double RadialRmseMetres,
    double MedianRadialMetres,
    double Percentile95RadialMetres,
    double LargestRadialMetres,
    Nssda Accuracy95,
    int WithinLimit)
{
    /// <summary>Share within the limit, 0 to 1.</summary>
    public double WithinLimitRatio => (double)WithinLimit / Count;

    /// <summary>Length of the mean deviation (mean dE, mean dN), metres.</summary>
    public double MeanVectorMetres => Math.Sqrt((East.MeanMetres * East.MeanMetres) + (North.MeanMetres * North.MeanMetres));

    /// <summary>Figures of a selection.</summary>
    /// <param name="judged">Deviations with their limits, any order.</param>
    /// <returns>The figures; null when there is no deviation.</returns>
    public static DeviationFigures? Of(IReadOnlyCollection<JudgedDeviation> judged)
    {
        ArgumentNullException.ThrowIfNull(judged);
        if (judged.Count == 0) return null;
        AxisFigures east = AxisFigures.Of(Values(judged, one => one.EastMetres));
        AxisFigures north = AxisFigures.Of(Values(judged, one => one.NorthMetres));
        double[] radial = Values(judged, one => one.RadialMetres);
        Array.Sort(radial);
        return new DeviationFigures(
            judged.Count,
            east,
            north,
            AxisFigures.Of(Values(judged, one => one.AlongMetres)),
            AxisFigures.Of(Values(judged, one => one.AcrossMetres)),
            AxisFigures.Of(radial).RmseMetres,
            Quantile(radial, 0.5),
            Quantile(radial, 0.95),
            radial[^1],
            Nssda.Of(judged.Count, east.RmseMetres, north.RmseMetres),
            judged.Count(one => one.IsWithinLimit));
    }

    /// <summary>The value below which a share of the values lies, between neighbours in proportion.</summary>
    /// <param name="ascending">Values in ascending order, at least one.</param>
    /// <param name="shareRatio">The share, 0 to 1.</param>
    /// <remarks>Type 7 of Hyndman and Fan, Sample quantiles in statistical packages, The American Statistician 50 (1996) 4:
    /// position (n - 1) p counted from zero.</remarks>
    internal static double Quantile(ReadOnlySpan<double> ascending, double shareRatio)
    {
        double position = (ascending.Length - 1) * shareRatio;
        int below = (int)Math.Floor(position);
        int above = Math.Min(below + 1, ascending.Length - 1);
        return ascending[below] + ((position - below) * (ascending[above] - ascending[below]));
    }

    private static double[] Values(IReadOnlyCollection<JudgedDeviation> judged, Func<PositionDeviation, double> figure)
        => judged.Select(one => figure(one.Deviation)).ToArray();
}
