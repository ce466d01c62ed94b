namespace SiteProgress.Core.Coordinates;

/// <summary>The figures that every kind of fit has in common.</summary>
internal static class FitStatistics
{
    public static double? StandardErrorOfUnitWeight(
        IReadOnlyList<ControlPoint> points, IReadOnlyList<ControlPointResidual> residuals, int redundancy) =>
        redundancy == 0 ? null : Math.Sqrt(WeightedSquares(points, residuals) / redundancy);

    public static double WeightedSquares(IReadOnlyList<ControlPoint> points, IReadOnlyList<ControlPointResidual> residuals)
    {
        double sum = 0;
        for (var i = 0; i < points.Count; i++)
            sum += CentredSums.WeightOf(points[i])
                * (residuals[i].EastMetres * residuals[i].EastMetres + residuals[i].NorthMetres * residuals[i].NorthMetres);
        return sum;
    }

    public static double RootMeanSquare(IReadOnlyList<ControlPointResidual> residuals) =>
        Math.Sqrt(residuals.Sum(r => r.EastMetres * r.EastMetres + r.NorthMetres * r.NorthMetres) / residuals.Count);
}
