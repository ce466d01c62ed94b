using System.Globalization;
using System.Text;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.SiteGrid;

/// <summary>Where everything of the picture of the control points goes: north of the projected CRS up, vectors to a scale of their own.</summary>
public sealed class MarkPictureDrawing
{
    /// <summary>Width of the drawing.</summary>
    public const double Width = 560;

    /// <summary>Height of the drawing.</summary>
    public const double Height = 400;

    private const double Margin = 62, LongestVector = 75;

    private readonly double west, south, perMetre;

    private MarkPictureDrawing(double west, double south, double perMetre, double vectorPerMetre)
        => (this.west, this.south, this.perMetre, VectorPerMetre) = (west, south, perMetre, vectorPerMetre);

    /// <summary>Units of the drawing for a metre of a vector.</summary>
    public double VectorPerMetre { get; }

    /// <summary>False where every vector is shorter than a hundredth of a millimetre.</summary>
    public bool HasVectors { get; private init; }

    /// <summary>Length of the bar for the ground, metres: a round number.</summary>
    public double GroundBarMetres => RoundFactor.NotAbove(120 / perMetre);

    /// <summary>Length of the bar for the vectors, metres: a round number.</summary>
    public double VectorBarMetres => RoundFactor.NotAbove(80 / VectorPerMetre);

    /// <summary>How many times larger vectors are drawn than the ground: a round number.</summary>
    public double Exaggeration => VectorPerMetre / perMetre;

    /// <summary>Lays the drawing out.</summary>
    /// <param name="marks">The marks with their vectors.</param>
    /// <param name="outlines">Outlines of zones in the projected CRS.</param>
    public static MarkPictureDrawing Of(IReadOnlyList<MarkVector> marks, IReadOnlyList<IReadOnlyList<ProjectedCoordinate>> outlines)
    {
        ArgumentNullException.ThrowIfNull(marks);
        ArgumentNullException.ThrowIfNull(outlines);
        ProjectedCoordinate[] all = [.. marks.Select(mark => mark.At).Concat(outlines.SelectMany(outline => outline)).Where(IsFinite)];
        if (all.Length == 0) all = [default];
        double west = all.Min(at => at.EastingMetres), east = all.Max(at => at.EastingMetres);
        double south = all.Min(at => at.NorthingMetres), north = all.Max(at => at.NorthingMetres);
        double perMetre = Math.Min((Width - (2 * Margin)) / Math.Max(east - west, 1), (Height - (2 * Margin)) / Math.Max(north - south, 1));
        double longest = marks.Max(mark => (double?)mark.LengthMetres) is { } length and > 1e-5 ? length : 0;
        double middleEast = (west + east) / 2, middleNorth = (south + north) / 2;
        double vectorPerMetre = RoundFactor.NotAbove(LongestVector / (longest > 0 ? longest : 0.001) / perMetre) * perMetre;
        return new(middleEast - (Width / 2 / perMetre), middleNorth - (Height / 2 / perMetre), perMetre, vectorPerMetre) { HasVectors = longest > 0 };
    }

    /// <summary>The outlines of the zones in the projected CRS.</summary>
    public static IReadOnlyList<IReadOnlyList<ProjectedCoordinate>> OutlinesOf(SiteSettings settings, Adjustment adjustment)
    {
        ArgumentNullException.ThrowIfNull(settings);
        ArgumentNullException.ThrowIfNull(adjustment);
        return [.. settings.Zones.Select(zone => (IReadOnlyList<ProjectedCoordinate>)[.. zone.Outline
            .Where(corner => corner.Length >= 2).Select(corner => adjustment.Forward(new SiteCoordinate(corner[0], corner[1])))]).Where(outline => outline.Count > 2)];
    }

    /// <summary>Place across.</summary>
    public double X(ProjectedCoordinate at) => (at.EastingMetres - west) * perMetre;

    /// <summary>Place down.</summary>
    public double Y(ProjectedCoordinate at) => Height - ((at.NorthingMetres - south) * perMetre);

    /// <summary>Length of a stretch of ground.</summary>
    public double Ground(double metres) => metres * perMetre;

    /// <summary>An outline as a path.</summary>
    public string Outline(IReadOnlyList<ProjectedCoordinate> corners)
    {
        ArgumentNullException.ThrowIfNull(corners);
        StringBuilder path = new();
        foreach (ProjectedCoordinate corner in corners.Where(IsFinite)) path.Append(path.Length == 0 ? 'M' : 'L').Append(Number(X(corner))).Append(' ').Append(Number(Y(corner)));
        return path.Append('Z').ToString();
    }

    /// <summary>A vector as a path with a head; empty where it is too short to be seen.</summary>
    public string Arrow(MarkVector mark)
    {
        ArgumentNullException.ThrowIfNull(mark);
        double dx = mark.EastMetres * VectorPerMetre, dy = -mark.NorthMetres * VectorPerMetre, length = Math.Sqrt((dx * dx) + (dy * dy));
        if (length < 0.5) return "";
        double x = X(mark.At) + dx, y = Y(mark.At) + dy, head = Math.Min(7, length / 2), ux = dx / length, uy = dy / length;
        return string.Create(CultureInfo.InvariantCulture,
            $"M{X(mark.At):0.0} {Y(mark.At):0.0}L{x:0.0} {y:0.0}M{x - (head * (ux + (uy / 2))):0.0} {y - (head * (uy - (ux / 2))):0.0}L{x:0.0} {y:0.0}L{x - (head * (ux - (uy / 2))):0.0} {y - (head * (uy + (ux / 2))):0.0}");
    }

    /// <summary>A triangle about a mark.</summary>
    public string Triangle(ProjectedCoordinate at)
        => string.Create(CultureInfo.InvariantCulture, $"M{X(at):0.0} {Y(at) - 6:0.0}l5.5 9.5h-11z");

    /// <summary>A number as drawings write it.</summary>
    public static string Number(double value) => value.ToString("0.0", CultureInfo.InvariantCulture);

    /// <summary>A length of a vector in words.</summary>
    public static string Length(double metres) => metres >= 1 ? $"{Show.Number(metres, metres < 10 ? 1 : 0)} m" : $"{Show.Number(metres * 1000, metres < 0.01 ? 1 : 0)} mm";

    private static bool IsFinite(ProjectedCoordinate at) => double.IsFinite(at.EastingMetres) && double.IsFinite(at.NorthingMetres);
}
