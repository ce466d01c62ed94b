using SiteProgress.Core.Deviations;
using SiteProgress.Jobs.Deviations;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Deviations;

/// <summary>The deviations in plan about the design position, as a chart true to scale, millimetres.</summary>
public static class ScatterOption
{
    private const int MostNamed = 1500;
    private const int Cells = 150;

    private static double[] HalfWidthsMetres => [0.02, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 1, 2, 5, 10, 20, 50, 100];

    /// <summary>Half the width of the picture, metres: it holds the limits and all judged piles, but is never wider than four limits.</summary>
    public static double HalfWidthMetres(DeviationReview review)
    {
        ArgumentNullException.ThrowIfNull(review);
        double limit = review.Limits.Select(one => one.RadialMetres).DefaultIfEmpty(0.1).Max();
        double wanted = Math.Clamp(1.05 * (review.Figures?.LargestRadialMetres ?? 0), 1.2 * limit, Math.Max(4 * limit, 0.02));
        return HalfWidthsMetres.FirstOrDefault(width => width >= wanted, wanted);
    }

    /// <summary>Points that lie outside the picture.</summary>
    public static int Outside(DeviationReview review)
    {
        double half = HalfWidthMetres(review);
        return review.Points.Count(point => !IsInside(point, half));
    }

    /// <summary>The picture.</summary>
    /// <param name="review">The chosen piles; some are judged.</param>
    /// <param name="site">Code of the site, for the addresses of piles.</param>
    public static object Of(DeviationReview review, string site)
    {
        double half = HalfWidthMetres(review);
        DeviationPoint[] inside = review.Points.Where(point => IsInside(point, half)).ToArray();
        List<object> series =
        [
            Points("within limit", "circle", 4, "var(--blue)", inside.Where(point => point.IsJudged && !point.IsBeyond), half, site),
            Points("not judged", "emptyCircle", 6, "var(--grey)", inside.Where(point => !point.IsJudged), half, site),
            Points("beyond limit", "triangle", 9, "var(--vermilion)", inside.Where(point => point.IsBeyond), half, site),
        ];
        foreach (double limit in review.LimitsMetres) series.Add(Line($"limit {Show.Millimetres(limit)} mm", "var(--text)", "dashed", Circle(limit)));
        foreach (PositionLimit limit in review.Limits.Where(limit => limit.SetsAxes).DistinctBy(limit => (limit.AlongMetres, limit.AcrossMetres)))
            series.Add(Line($"limit {ShowLimit.Of(null, limit.AlongMetres, limit.AcrossMetres)} mm", "var(--text)", "dashed", Rectangle(limit, 3 * half)));
        foreach (double alert in review.AlertsMetres) series.Add(Line($"alert {Show.Millimetres(alert)} mm", "var(--grey)", "dotted", Circle(alert)));
        if (review.Figures is { } figures)
        {
            if (figures.Ellipse is { } ellipse) series.Add(Line("95 % ellipse", "var(--green)", "solid", Ellipse(ellipse, figures)));
            series.Add(new
            {
                type = "scatter", name = "mean", symbol = "path://M-1-6H1V-1H6V1H1V6H-1V1H-6V-1H-1Z", symbolSize = 16, itemStyle = new { color = "var(--text)" }, unit = "mm", decimals = 0,
                data = new[] { new[] { figures.East.MeanMetres * 1000, figures.North.MeanMetres * 1000 } },
            });
        }

        return new { grid = ChartScale.Grid, tooltip = new { trigger = "item" }, xAxis = Axis("dE [mm]", half), yAxis = Axis("dN [mm]", half), series };
    }

    private static bool IsInside(DeviationPoint point, double half) => Math.Abs(point.EastMetres) <= half && Math.Abs(point.NorthMetres) <= half;

    private static object Axis(string name, double half) => new { type = "value", name, min = -half * 1000, max = half * 1000, decimals = 0, nameGap = 42 };

    /// <summary>Few points are links to their piles; of many one a cell is drawn, so that a hundred thousand stay a picture of bounded size.</summary>
    private static object Points(string name, string symbol, int size, string colour, IEnumerable<DeviationPoint> points, double half, string site)
    {
        DeviationPoint[] given = points.ToArray();
        double cell = half / Cells;
        object data = given.Length <= MostNamed
            ? given.Select(point => new { name = point.Number, value = Place(point), address = $"/sites/{site}/piles/{point.Number}" }).ToArray()
            : given.DistinctBy(point => (Math.Round(point.EastMetres / cell), Math.Round(point.NorthMetres / cell))).Select(Place).ToArray();
        return new { type = "scatter", name, symbol, symbolSize = size, itemStyle = new { color = colour }, unit = "mm", decimals = 0, data };
    }

    private static double[] Place(DeviationPoint point) => [Math.Round(point.EastMetres * 1000, 1), Math.Round(point.NorthMetres * 1000, 1)];

    private static object Line(string name, string colour, string dash, IEnumerable<double[]> data)
        => new { type = "line", name, symbol = "none", silent = true, lineStyle = new { color = colour, width = 1.5, type = dash }, itemStyle = new { color = colour }, data = data.ToArray() };

    private static IEnumerable<double[]> Circle(double radius)
        => Turn().Select(angle => new[] { 1000 * radius * Math.Cos(angle), 1000 * radius * Math.Sin(angle) });

    /// <summary>The limits along the axes of the site grid, turned to the CRS grid; an axis without a limit runs out of the picture.</summary>
    private static IEnumerable<double[]> Rectangle(PositionLimit limit, double far)
    {
        GridRotation axes = limit.Axes ?? new GridRotation(1, 0, 0, 1);
        (double along, double across) = (limit.AlongMetres ?? far, limit.AcrossMetres ?? far);
        return new[] { (1, 1), (-1, 1), (-1, -1), (1, -1), (1, 1) }.Select(corner => new[]
        {
            1000 * ((corner.Item1 * along * axes.FirstAxisEast) + (corner.Item2 * across * axes.SecondAxisEast)),
            1000 * ((corner.Item1 * along * axes.FirstAxisNorth) + (corner.Item2 * across * axes.SecondAxisNorth)),
        });
    }

    private static IEnumerable<double[]> Ellipse(ErrorEllipse ellipse, DeviationFigures figures)
    {
        (double sin, double cos) = Math.SinCos(ellipse.BearingDegrees * Math.PI / 180);
        return Turn().Select(angle =>
        {
            (double along, double aside) = (Nssda.FactorRatio * ellipse.SemiMajorMetres * Math.Cos(angle), Nssda.FactorRatio * ellipse.SemiMinorMetres * Math.Sin(angle));
            return new[] { 1000 * (figures.East.MeanMetres + (along * sin) + (aside * cos)), 1000 * (figures.North.MeanMetres + (along * cos) - (aside * sin)) };
        });
    }

    private static IEnumerable<double> Turn() => Enumerable.Range(0, 73).Select(step => step * Math.PI / 36);
}
