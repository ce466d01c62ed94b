namespace SiteProgress.Core.Deviations;

/// <summary>A deviation that may be held against a limit, with that limit.</summary>
/// <param name="Deviation">As-built minus planned.</param>
/// <param name="Limit">Limit in force for the pile.</param>
public readonly record struct JudgedDeviation(PositionDeviation Deviation, PositionLimit Limit)
{
    /// <summary>True when the unrounded deviation keeps every limit that is set (&lt;=).</summary>
    public bool IsWithinLimit => Limit.Hold(Deviation).Answer.IsMet;
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

    /// <summary>How many are beyond the site's own alert, within the limit or not; null where no alert is set for any of them.</summary>
    public int? BeyondAlert { get; init; }

    /// <summary>Ellipse of one standard deviation; null for a single deviation.</summary>
    public ErrorEllipse? Ellipse { get; init; }

    /// <summary>Share within the limit with its 95 % interval.</summary>
    public ShareInterval Within { get; init; } = new(0, 0, 1, 1);

    /// <summary>Figures of a selection.</summary>
    /// <param name="judged">Deviations with their limits, any order.</param>
    /// <param name="setUps">Of each deviation the set-up it was built from, as numbers from 0 that tell set-ups apart; left out where
    /// that is not known, and then each counts for itself.</param>
    /// <returns>The figures; null when there is no deviation.</returns>
    public static DeviationFigures? Of(IReadOnlyCollection<JudgedDeviation> judged, IReadOnlyList<int>? setUps = null)
    {
        ArgumentNullException.ThrowIfNull(judged);
        return judged.Count == 0 ? null : Of(judged as JudgedDeviation[] ?? judged.ToArray(), setUps);
    }

    /// <summary>The value below which a share of the values lies, between neighbours in proportion (type 7 of Hyndman and Fan 1996).</summary>
    /// <param name="values">At least one value, any order; it is changed.</param>
    /// <param name="shareRatio">The share, 0 to 1.</param>
    public static double Quantile(double[] values, double shareRatio) => Quantiles.Of(values, shareRatio);

    private static DeviationFigures Of(JudgedDeviation[] judged, IReadOnlyList<int>? setUps)
    {
        int n = judged.Length;
        double[] values = new double[5 * n];
        Span<double> east = values.AsSpan(0, n), north = values.AsSpan(n, n), along = values.AsSpan(2 * n, n), across = values.AsSpan(3 * n, n), radial = values.AsSpan(4 * n, n);
        (int within, int beyondAlert, bool anyAlert) = (0, 0, false);
        double largest = 0;
        // Nearly all piles share their limit; what it sets is asked once for each run of them.
        (PositionLimit? known, bool radialOnly) = (null, false);
        for (int index = 0; index < n; index++)
        {
            ref readonly JudgedDeviation one = ref judged[index];
            (east[index], north[index], along[index], across[index]) =
                (one.Deviation.EastMetres, one.Deviation.NorthMetres, one.Deviation.AlongMetres, one.Deviation.AcrossMetres);
            double reach = one.Deviation.RadialMetres;
            radial[index] = reach;
            largest = Math.Max(largest, reach);
            if (!ReferenceEquals(known, one.Limit)) (known, radialOnly) = (one.Limit, !one.Limit.SetsAxes && !one.Limit.SetsAlert);
            if (radialOnly)
            {
                if (AgainstLimit.IsAtMost(reach, known!.RadialMetres)) within++;
                continue;
            }

            anyAlert |= one.Limit.SetsAlert;
            LimitAnswer answer = one.Limit.Hold(one.Deviation).Answer;
            if (answer.IsMet) within++;
            if (answer.IsBeyondAlert) beyondAlert++;
        }

        (AxisFigures ofEast, AxisFigures ofNorth) = (AxisFigures.Of(east), AxisFigures.Of(north));
        return new DeviationFigures(
            n, ofEast, ofNorth, AxisFigures.Of(along), AxisFigures.Of(across), AxisFigures.Of(radial).RmseMetres,
            Quantiles.Of(radial, 0.5), Quantiles.Of(radial, 0.95), largest,
            Nssda.Of(n, ofEast.RmseMetres, ofNorth.RmseMetres), within)
        {
            BeyondAlert = anyAlert ? beyondAlert : null,
            Ellipse = EllipseOf(east, north, ofEast, ofNorth),
            Within = setUps is null ? ShareInterval.Of(within, n) : BySetUp(judged, setUps),
        };
    }

    private static ErrorEllipse? EllipseOf(ReadOnlySpan<double> east, ReadOnlySpan<double> north, AxisFigures ofEast, AxisFigures ofNorth)
    {
        if (ofEast.StandardDeviationMetres is not { } eastSpread || ofNorth.StandardDeviationMetres is not { } northSpread) return null;
        double product = 0;
        for (int index = 0; index < east.Length; index++)
            product += (east[index] - ofEast.MeanMetres) * (north[index] - ofNorth.MeanMetres);
        return ErrorEllipse.Of(eastSpread * eastSpread, northSpread * northSpread, product / (east.Length - 1));
    }

    /// <summary>How many of each set-up are within, and of how many.</summary>
    private static ShareInterval BySetUp(JudgedDeviation[] judged, IReadOnlyList<int> setUps)
    {
        int most = 0;
        for (int index = 0; index < judged.Length; index++) most = Math.Max(most, setUps[index]);
        int[] within = new int[most + 1], counts = new int[most + 1];
        for (int index = 0; index < judged.Length; index++)
        {
            int setUp = setUps[index];
            counts[setUp]++;
            if (judged[index].IsWithinLimit) within[setUp]++;
        }

        return ShareInterval.Of(within, counts);
    }
}
