using NetTopologySuite.Algorithm;
using NetTopologySuite.Geometries;
using SiteProgress.Core.Coordinates;

namespace SiteProgress.Core.Ground;

/// <summary>The seabed of one square before and after.</summary>
/// <param name="Middle">Middle of the square, site grid, metres.</param>
/// <param name="BeforeMetres">Mean level of the soundings in it before, metres above the level datum.</param>
/// <param name="AfterMetres">Mean level after.</param>
/// <param name="Soundings">Soundings in it, of the survey that has fewer.</param>
public sealed record HeaveSquare(SiteCoordinate Middle, double BeforeMetres, double AfterMetres, int Soundings)
{
    /// <summary>How much the seabed came up, metres; below zero it went down.</summary>
    public double HeaveMetres => AfterMetres - BeforeMetres;
}

/// <summary>How the seabed of a zone came up between two surveys.</summary>
/// <param name="SquareMetres">Side of the squares, metres.</param>
/// <param name="Squares">Squares with soundings of both surveys whose middle lies in the zone.</param>
/// <param name="SquaresOfZone">Squares whose middle lies in the zone.</param>
public sealed record HeaveReview(double SquareMetres, IReadOnlyList<HeaveSquare> Squares, int SquaresOfZone)
{
    /// <summary>Share of the zone that both surveys cover.</summary>
    public double CoveredRatio => SquaresOfZone == 0 ? 0 : (double)Squares.Count / SquaresOfZone;

    /// <summary>Mean heave over what both surveys cover, metres; null where that is nothing.</summary>
    public double? MeanMetres => Squares.Count == 0 ? null : Squares.Average(square => square.HeaveMetres);

    /// <summary>Volume that came up where both surveys cover the zone, cubic metres.</summary>
    public double VolumeCubicMetres => Squares.Sum(square => square.HeaveMetres) * SquareMetres * SquareMetres;
}

/// <summary>
/// Holds two seabed surveys against each other square by square: the mean of the soundings in a square, after less before. (Difference of
/// two surfaces on one raster; common practice, no source.)
/// </summary>
public static class SeabedHeave
{
    /// <summary>Most squares of one zone; a finer raster than that is a slip of the pen.</summary>
    public static readonly int MostSquares = 250_000;

    /// <summary>Reviews one zone.</summary>
    /// <param name="outline">Corners of the zone, site grid.</param>
    /// <param name="before">The earlier survey.</param>
    /// <param name="after">The later survey.</param>
    /// <param name="squareMetres">Side of the squares, metres, above zero; about the distance between soundings or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">The squares are so small that the zone has more than <see cref="MostSquares"/>.</exception>
    public static HeaveReview Of(IReadOnlyList<SiteCoordinate> outline, SeabedSurvey before, SeabedSurvey after, double squareMetres)
    {
        ArgumentNullException.ThrowIfNull(outline);
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(squareMetres);
        if (outline.Count < 3) return new HeaveReview(squareMetres, [], 0);
        double left = outline.Min(corner => corner.XMetres), bottom = outline.Min(corner => corner.YMetres);
        double columns = Math.Ceiling((outline.Max(corner => corner.XMetres) - left) / squareMetres), rows = Math.Ceiling((outline.Max(corner => corner.YMetres) - bottom) / squareMetres);
        if (columns * rows > MostSquares) throw new ArgumentOutOfRangeException(nameof(squareMetres), squareMetres, "The squares are too small for the zone.");
        Coordinate[] ring = [.. outline.Append(outline[0]).Select(corner => new Coordinate(corner.XMetres, corner.YMetres))];
        Dictionary<(int Column, int Row), (double Sum, int Count)> levelsBefore = Levels(before), levelsAfter = Levels(after);
        List<HeaveSquare> squares = [];
        int ofZone = 0;
        for (int row = 0; row < rows; row++)
        {
            for (int column = 0; column < columns; column++)
            {
                SiteCoordinate middle = new(left + ((column + 0.5) * squareMetres), bottom + ((row + 0.5) * squareMetres));
                if (PointLocation.LocateInRing(new Coordinate(middle.XMetres, middle.YMetres), ring) == Location.Exterior) continue;
                ofZone++;
                if (levelsBefore.TryGetValue((column, row), out (double Sum, int Count) one) && levelsAfter.TryGetValue((column, row), out (double Sum, int Count) other))
                    squares.Add(new HeaveSquare(middle, one.Sum / one.Count, other.Sum / other.Count, Math.Min(one.Count, other.Count)));
            }
        }

        return new HeaveReview(squareMetres, squares, ofZone);

        Dictionary<(int, int), (double, int)> Levels(SeabedSurvey survey)
        {
            Dictionary<(int, int), (double Sum, int Count)> levels = [];
            foreach (Sounding sounding in survey.Soundings)
            {
                double column = Math.Floor((sounding.At.XMetres - left) / squareMetres), row = Math.Floor((sounding.At.YMetres - bottom) / squareMetres);
                if (!(column >= 0 && column < columns && row >= 0 && row < rows)) continue;
                levels.TryGetValue(((int)column, (int)row), out (double Sum, int Count) sofar);
                levels[((int)column, (int)row)] = (sofar.Sum + sounding.LevelMetres, sofar.Count + 1);
            }

            return levels;
        }
    }
}

/// <summary>How much the seabed may be expected to come up, and how well two surveys can tell.</summary>
public static class ExpectedHeave
{
    /// <summary>
    /// Volume that comes up for each volume of sand in the piles: 0.356 a_s + 2.803 / L + 0.112 (Shiomi and Kawamoto, as the Japanese port
    /// design book of 2002 and Kitazume 2005 give it; from memory). Found for piles of about 6 to 20 m and a_s of about 0.3 to 0.8.
    /// </summary>
    /// <param name="replacementRatio">Replacement ratio a_s.</param>
    /// <param name="lengthMetres">Length of the piles, metres, above zero.</param>
    public static double UpheavalRatio(double replacementRatio, double lengthMetres) => (0.356 * replacementRatio) + (2.803 / lengthMetres) + 0.112;

    /// <summary>True where the formula was found for such piles.</summary>
    public static bool IsWithinItsRange(double replacementRatio, double lengthMetres) => replacementRatio is >= 0.3 and <= 0.8 && lengthMetres is >= 6 and <= 20;

    /// <summary>
    /// Total vertical uncertainty that a survey of special order may have at most (95 %): sqrt(0.25² + (0.0075 d)²) (IHO S-44, edition 6, table 1).
    /// </summary>
    /// <param name="waterDepthMetres">Depth of the water, metres.</param>
    public static double SpecialOrderMetres(double waterDepthMetres) => double.Hypot(0.25, 0.0075 * waterDepthMetres);
}
