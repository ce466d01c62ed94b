using MathNet.Numerics.Distributions;

namespace SiteProgress.Core.Coordinates;

/// <summary>One mark's share in a linearised fit: leverage of its two coordinates, and what the fit leaves.</summary>
internal readonly record struct Leverage(double East, double North);

/// <summary>The figures that every kind of fit has in common.</summary>
internal static class FitStatistics
{
    private const double NotCheckedBelow = 1e-9;

    /// <summary>Everything a surveyor judges a fit by, for any kind of fit.</summary>
    /// <param name="points">The marks.</param>
    /// <param name="adjustment">The fit.</param>
    /// <param name="parameterCount">How many parameters it has.</param>
    /// <param name="leverage">Leverage of each mark's two coordinates.</param>
    /// <param name="standardErrors">Parameter errors for a given S0.</param>
    /// <param name="refit">The same kind of fit from other marks, or null where they cannot carry it.</param>
    /// <param name="withOtherAxes">The fit with the site's axes exchanged, to see whether they look swapped.</param>
    public static AdjustmentQuality Describe(
        IReadOnlyList<ControlPoint> points, Adjustment adjustment, int parameterCount, Leverage[] leverage,
        Func<double, AdjustmentStandardErrors> standardErrors, Func<IReadOnlyList<ControlPoint>, Adjustment?> refit, Adjustment? withOtherAxes)
    {
        var redundancy = 2 * points.Count - parameterCount;
        var residuals = Residuals(points, adjustment, leverage);
        var squares = WeightedSquares(points, residuals);
        double? s0 = redundancy == 0 ? null : Math.Sqrt(squares / redundancy);
        var global = redundancy == 0 ? null : new GlobalTest(squares, ChiSquared.InvCDF(redundancy, 0.025), ChiSquared.InvCDF(redundancy, 0.975));
        var quality = new AdjustmentQuality(
            residuals, redundancy, s0, s0 is { } s ? standardErrors(s) : null,
            Math.Sqrt(residuals.Sum(r => r.EastMetres * r.EastMetres + r.NorthMetres * r.NorthMetres) / residuals.Length),
            global, redundancy == 0 ? [] : Predictions(points, refit), []);
        return quality with { Warnings = AdjustmentWarnings.Collect(points, adjustment, withOtherAxes, quality) };
    }

    private static ControlPointResidual[] Residuals(IReadOnlyList<ControlPoint> points, Adjustment adjustment, Leverage[] leverage)
    {
        var residuals = new ControlPointResidual[points.Count];
        for (var i = 0; i < points.Count; i++)
        {
            var computed = adjustment.Forward(points[i].Site);
            var east = computed.EastingMetres - points[i].Projected.EastingMetres;
            var north = computed.NorthingMetres - points[i].Projected.NorthingMetres;
            double redundancyEast = Math.Max(0, 1 - leverage[i].East), redundancyNorth = Math.Max(0, 1 - leverage[i].North);
            residuals[i] = new(
                points[i].Name, east, north, (redundancyEast + redundancyNorth) / 2,
                W(east, points[i].StandardDeviationMetres, redundancyEast), W(north, points[i].StandardDeviationMetres, redundancyNorth));
        }

        return residuals;
    }

    private static double? W(double residual, double deviation, double redundancy) =>
        redundancy < NotCheckedBelow ? null : residual / (deviation * Math.Sqrt(redundancy));

    private static double WeightedSquares(IReadOnlyList<ControlPoint> points, ControlPointResidual[] residuals)
    {
        double sum = 0;
        for (var i = 0; i < points.Count; i++)
            sum += CentredSums.WeightOf(points[i])
                * (residuals[i].EastMetres * residuals[i].EastMetres + residuals[i].NorthMetres * residuals[i].NorthMetres);
        return sum;
    }

    private static ControlPointPrediction[] Predictions(IReadOnlyList<ControlPoint> points, Func<IReadOnlyList<ControlPoint>, Adjustment?> refit)
    {
        var predictions = new List<ControlPointPrediction>();
        for (var i = 0; i < points.Count; i++)
        {
            var left = points[i];
            if (refit([.. points.Where((_, j) => j != i)]) is not { } others) continue;
            var there = others.Forward(left.Site);
            predictions.Add(new(left.Name, there.EastingMetres - left.Projected.EastingMetres, there.NorthingMetres - left.Projected.NorthingMetres));
        }

        return [.. predictions];
    }
}
