namespace SiteProgress.Core.Deviations;

/// <summary>A level as built against its design, with how far it may differ.</summary>
/// <param name="DifferenceMetres">As-built minus design level, metres, up positive.</param>
/// <param name="Limit">How far it may differ.</param>
public readonly record struct JudgedLevel(double DifferenceMetres, LevelLimit Limit)
{
    /// <summary>True when the unrounded difference is within what is allowed, equality included.</summary>
    public bool IsWithinLimit => Limit.Hold(DifferenceMetres).IsMet;
}

/// <summary>What a selection of levels amounts to, as-built minus design, metres, up positive.</summary>
/// <param name="Count">How many levels.</param>
/// <param name="Difference">Mean, spread and RMSE.</param>
/// <param name="MedianMetres">Half of the differences are at most this, metres.</param>
/// <param name="Percentile95AbsoluteMetres">95 % of the differences are at most this far from zero, metres.</param>
/// <param name="Accuracy95Metres">1.9600 RMSE, metres; null below twenty levels. FGDC-STD-007.3-1998 (NSSDA), vertical accuracy.</param>
/// <param name="WithinLimit">How many are within their limit.</param>
/// <param name="Within">Their share with its interval.</param>
public sealed record LevelFigures(
    int Count,
    AxisFigures Difference,
    double MedianMetres,
    double Percentile95AbsoluteMetres,
    double? Accuracy95Metres,
    int WithinLimit,
    ShareInterval Within)
{
    /// <summary>How many are beyond the site's own alert; null where no alert is set for any of them.</summary>
    public int? BeyondAlert { get; init; }

    /// <summary>Half width, in standard deviations, that holds 95 % of a normal distribution: 1.959964.</summary>
    private static readonly double Factor = MathNet.Numerics.Distributions.Normal.InvCDF(0, 1, 0.975);

    /// <summary>Figures of a selection; null when there is no level.</summary>
    /// <param name="levels">Levels with what is allowed, any order.</param>
    public static LevelFigures? Of(IReadOnlyCollection<JudgedLevel> levels)
    {
        ArgumentNullException.ThrowIfNull(levels);
        if (levels.Count == 0) return null;
        double[] differences = levels.Select(level => level.DifferenceMetres).ToArray();
        AxisFigures axis = AxisFigures.Of(differences);
        double[] absolute = Array.ConvertAll(differences, Math.Abs);
        int within = levels.Count(level => level.IsWithinLimit);
        return new LevelFigures(
            levels.Count,
            axis,
            Quantiles.Median(differences),
            Quantiles.Of(absolute, 0.95),
            levels.Count >= Nssda.LeastCount ? Factor * axis.RmseMetres : null,
            within,
            ShareInterval.Of(within, levels.Count))
        {
            BeyondAlert = levels.Any(level => level.Limit.AlertMetres is not null) ? levels.Count(level => level.Limit.Hold(level.DifferenceMetres).IsBeyondAlert) : null,
        };
    }
}
