using SiteProgress.Core.Piles;

namespace SiteProgress.Exchange;

/// <summary>Where a site is in one frame: a box of the first and the second coordinate, in the unit of the frame.</summary>
/// <param name="LeastFirst">Least first coordinate.</param>
/// <param name="LeastSecond">Least second coordinate.</param>
/// <param name="MostFirst">Greatest first coordinate.</param>
/// <param name="MostSecond">Greatest second coordinate.</param>
public readonly record struct FrameBox(double LeastFirst, double LeastSecond, double MostFirst, double MostSecond)
{
    /// <summary>The box around some positions of one frame, wider on every side by a margin.</summary>
    /// <param name="positions">Positions, at least one.</param>
    /// <param name="margin">Margin, in the unit of the frame.</param>
    /// <returns>The box.</returns>
    /// <exception cref="ArgumentException">There is no position.</exception>
    public static FrameBox Around(IEnumerable<RecordedPosition> positions, double margin)
    {
        ArgumentNullException.ThrowIfNull(positions);
        FrameBox? box = null;
        foreach (var (_, first, second) in positions)
        {
            box = box is not { } known
                ? new FrameBox(first, second, first, second)
                : new FrameBox(
                    Math.Min(known.LeastFirst, first), Math.Min(known.LeastSecond, second),
                    Math.Max(known.MostFirst, first), Math.Max(known.MostSecond, second));
        }

        return box is { } all
            ? new FrameBox(all.LeastFirst - margin, all.LeastSecond - margin, all.MostFirst + margin, all.MostSecond + margin)
            : throw new ArgumentException("A box needs at least one position.", nameof(positions));
    }

    /// <summary>True where a point lies in the box or on its edge.</summary>
    /// <param name="first">First coordinate.</param>
    /// <param name="second">Second coordinate.</param>
    public bool Contains(double first, double second)
        => first >= LeastFirst && first <= MostFirst && second >= LeastSecond && second <= MostSecond;

    /// <summary>Distance of a point from the box, in the unit of the frame; 0 inside.</summary>
    /// <param name="first">First coordinate.</param>
    /// <param name="second">Second coordinate.</param>
    public double DistanceTo(double first, double second)
    {
        var alongFirst = Math.Max(0, Math.Max(LeastFirst - first, first - MostFirst));
        var alongSecond = Math.Max(0, Math.Max(LeastSecond - second, second - MostSecond));
        return Math.Sqrt((alongFirst * alongFirst) + (alongSecond * alongSecond));
    }
}
