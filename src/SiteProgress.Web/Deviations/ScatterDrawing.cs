using System.Globalization;
using System.Text;
using SiteProgress.Jobs.Deviations;

namespace SiteProgress.Web.Deviations;

/// <summary>
/// Where everything of the scatter goes, in units of a square of 480. Points are drawn as one path a kind, on a raster of half a
/// unit, so that a hundred thousand of them stay one element of bounded size.
/// </summary>
public sealed class ScatterDrawing
{
    /// <summary>Side of the drawing.</summary>
    public static int Side => 480;

    private static double[] HalfWidthsMetres => [0.02, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 1, 2, 5, 10, 20, 50, 100];

    private ScatterDrawing(double halfWidthMetres) => HalfWidthMetres = halfWidthMetres;

    /// <summary>Half the width of the frame, metres.</summary>
    public double HalfWidthMetres { get; }

    /// <summary>Judged piles within their limit, as a path of dots.</summary>
    public string Within { get; private init; } = "";

    /// <summary>Built piles not judged, as a path of rings.</summary>
    public string NotJudged { get; private init; } = "";

    /// <summary>Judged piles beyond their limit.</summary>
    public IReadOnlyList<DeviationPoint> Beyond { get; private init; } = [];

    /// <summary>Points that lie outside the frame.</summary>
    public int Outside { get; private init; }

    /// <summary>Lays the drawing out: the frame holds the limits and all judged piles, but is never wider than four limits.</summary>
    public static ScatterDrawing Of(DeviationReview review)
    {
        ArgumentNullException.ThrowIfNull(review);
        double limit = review.LimitsMetres.DefaultIfEmpty(0.1).Max();
        double wanted = Math.Clamp(1.05 * (review.Figures?.LargestRadialMetres ?? 0), 1.2 * limit, Math.Max(4 * limit, 0.02));
        double half = HalfWidthsMetres.FirstOrDefault(width => width >= wanted, wanted);
        DeviationPoint[] inside = review.Points.Where(point => Math.Abs(point.EastMetres) <= half && Math.Abs(point.NorthMetres) <= half).ToArray();
        ScatterDrawing frame = new(half);
        return new ScatterDrawing(half)
        {
            Within = frame.Path(inside.Where(point => point.IsJudged && !point.IsBeyond), "h0"),
            NotJudged = frame.Path(inside.Where(point => !point.IsJudged), "m-2.5 0a2.5 2.5 0 1 0 5 0a2.5 2.5 0 1 0 -5 0"),
            Beyond = inside.Where(point => point.IsBeyond).OrderByDescending(point => point.RadialMetres).ToArray(),
            Outside = review.Points.Count - inside.Length,
        };
    }

    /// <summary>Lines of the grid, metres from the middle.</summary>
    public IEnumerable<double> GridMetres()
    {
        double step = HalfWidthMetres / 4;
        for (int line = -4; line <= 4; line++) yield return line * step;
    }

    /// <summary>Place across, for a deviation to the east.</summary>
    public double X(double eastMetres) => (Side / 2.0) + Length(eastMetres);

    /// <summary>Place down, for a deviation to the north.</summary>
    public double Y(double northMetres) => (Side / 2.0) - Length(northMetres);

    /// <summary>Length of a distance in the drawing.</summary>
    public double Length(double metres) => metres / HalfWidthMetres * Side / 2;

    /// <summary>A number of the drawing.</summary>
    public static string Number(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);

    /// <summary>The triangle of a pile beyond its limit.</summary>
    public string Triangle(DeviationPoint point)
        => $"M{Number(X(point.EastMetres))} {Number(Y(point.NorthMetres) - 4.5)}l4.5 8h-9z";

    private string Path(IEnumerable<DeviationPoint> points, string mark)
    {
        StringBuilder path = new();
        foreach ((int x, int y) in points.Select(point => (X: Raster(X(point.EastMetres)), Y: Raster(Y(point.NorthMetres)))).Distinct())
            path.Append(CultureInfo.InvariantCulture, $"M{x / 2.0} {y / 2.0}{mark}");
        return path.ToString();
    }

    private static int Raster(double place) => (int)Math.Round(place * 2);
}
