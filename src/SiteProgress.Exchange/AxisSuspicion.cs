using System.Globalization;
using SiteProgress.Core.Piles;

namespace SiteProgress.Exchange;

/// <summary>What the positions of a file look like, where they do not lie on the site as read.</summary>
public enum AxisMistake
{
    /// <summary>First and second coordinate stand in each other's column.</summary>
    Swapped = 1,

    /// <summary>Positions of another frame stand under the headers of this one.</summary>
    OtherFrame = 2,

    /// <summary>Positions of another frame stand under the headers of this one, and in each other's column.</summary>
    OtherFrameSwapped = 3,

    /// <summary>No order and no frame of this site explains where they lie.</summary>
    NotExplained = 4,
}

/// <summary>
/// A suspicion about the axes or the frame of a file's positions, with its evidence. It decides nothing: a person looks.
/// A swap that stays within the site's box cannot be seen this way; matching against the design shows it.
/// </summary>
/// <param name="Mistake">What it looks like.</param>
/// <param name="ReadAs">Frame the positions were read in.</param>
/// <param name="RowsSeen">Number of positions read in that frame.</param>
/// <param name="RowsOutside">How many of them lie outside the site as read.</param>
/// <param name="RowsExplained">How many of those lie on the site when read the other way.</param>
/// <param name="MeanDistance">Mean distance from the site of those outside, in the unit of the frame.</param>
/// <param name="Text">The suspicion with its evidence, as sentences for a person.</param>
public sealed record AxisSuspicion(
    AxisMistake Mistake, Frame ReadAs, int RowsSeen, int RowsOutside, int RowsExplained, double MeanDistance, string Text)
{
    /// <summary>Judges positions against where the site is.</summary>
    /// <param name="positions">Positions as read, of any frame.</param>
    /// <param name="site">Where the site is, for each frame it is known in.</param>
    /// <returns>At most one suspicion for each frame; none where the positions lie on the site.</returns>
    public static IReadOnlyList<AxisSuspicion> Judge(
        IReadOnlyList<RecordedPosition> positions, IReadOnlyDictionary<Frame, FrameBox> site)
    {
        ArgumentNullException.ThrowIfNull(positions);
        ArgumentNullException.ThrowIfNull(site);
        var suspicions = new List<AxisSuspicion>();
        foreach (var frame in positions.GroupBy(position => position.Frame))
        {
            if (site.TryGetValue(frame.Key, out var box) && JudgeFrame(frame.Key, [.. frame], box, site) is { } suspicion)
                suspicions.Add(suspicion);
        }

        return suspicions;
    }

    private static AxisSuspicion? JudgeFrame(
        Frame frame, RecordedPosition[] read, FrameBox box, IReadOnlyDictionary<Frame, FrameBox> site)
    {
        RecordedPosition[] outside = [.. read.Where(position => !box.Contains(position.First, position.Second))];
        if (outside.Length == 0)
            return null;

        var (mistake, looksLike, explained) = Explanations(frame, site)
            .Select(way => (way.Mistake, way.LooksLike, Explained: outside.Count(way.Fits)))
            .MaxBy(way => way.Explained);
        var distance = outside.Average(position => box.DistanceTo(position.First, position.Second));
        if (explained * 2 < outside.Length)
        {
            // A few strays are single mistakes and are told with their rows; most of a file outside is one mistake of the file.
            if (outside.Length * 2 <= read.Length)
                return null;
            (mistake, looksLike, explained) = (AxisMistake.NotExplained, "no order of the axes and no other frame of the site explains it", 0);
        }

        var evidence = string.Create(CultureInfo.InvariantCulture, $"{outside.Length} of {read.Length} positions lie outside the site, on average {Distance(frame, distance)} from it; ")
            + (mistake is AxisMistake.NotExplained
                ? looksLike
                : string.Create(CultureInfo.InvariantCulture, $"{explained} of these lie on the site when {looksLike}"));
        return new AxisSuspicion(mistake, frame, read.Length, outside.Length, explained, distance, evidence + ".");
    }

    private static IEnumerable<(AxisMistake Mistake, string LooksLike, Func<RecordedPosition, bool> Fits)> Explanations(
        Frame frame, IReadOnlyDictionary<Frame, FrameBox> site)
    {
        var box = site[frame];
        var swapped = frame is Frame.Geographic ? "latitude and longitude are swapped" : "first and second coordinate are swapped";
        yield return (AxisMistake.Swapped, swapped, position => box.Contains(position.Second, position.First));
        foreach (var (other, otherBox) in site)
        {
            if (other == frame)
                continue;
            yield return (AxisMistake.OtherFrame, $"taken as {Words(other)}", position => otherBox.Contains(position.First, position.Second));
            yield return (
                AxisMistake.OtherFrameSwapped, $"taken as {Words(other)} with first and second swapped",
                position => otherBox.Contains(position.Second, position.First));
        }
    }

    private static string Words(Frame frame) => frame switch
    {
        Frame.SiteGrid => "site-grid coordinates",
        Frame.ProjectedCrs => "easting and northing of the projected CRS",
        _ => "latitude and longitude",
    };

    private static string Distance(Frame frame, double distance) => frame is Frame.Geographic
        ? string.Create(CultureInfo.InvariantCulture, $"{distance:0.000} degrees")
        : string.Create(CultureInfo.InvariantCulture, $"{distance:0} m");
}
