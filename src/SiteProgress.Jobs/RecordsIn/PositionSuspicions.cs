using System.Globalization;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>Positions of a batch that do not lie on the site as read: another order or frame, another zone, feet.</summary>
internal static class PositionSuspicions
{
    private const int MostLookedAt = 2_000;
    private const double FootMetres = 0.3048;

    /// <summary>The suspicions, each with its evidence.</summary>
    /// <param name="positions">Positions of the batch.</param>
    /// <param name="site">The site as it would be with the batch.</param>
    /// <param name="uptoSequence">Last record before the batch.</param>
    public static IEnumerable<string> Of(RecordedPosition[] positions, DerivedSite site, long uptoSequence)
    {
        Dictionary<Frame, FrameBox> boxes = SitePlace.Boxes(site, uptoSequence);
        foreach (AxisSuspicion suspicion in AxisSuspicion.Judge(positions, boxes))
        {
            yield return suspicion.Mistake == AxisMistake.NotExplained && Explain(positions, suspicion.ReadAs, boxes, site.Frames!) is { } better
                ? suspicion.Text.Replace("no order of the axes and no other frame of the site explains it", better, StringComparison.Ordinal)
                : suspicion.Text;
        }
    }

    /// <summary>What most of the positions outside the site look like, where no order and no frame of the site explains them.</summary>
    private static string? Explain(RecordedPosition[] positions, Frame frame, Dictionary<Frame, FrameBox> boxes, SiteFrames frames)
    {
        RecordedPosition[] outside = positions.Where(at => at.Frame == frame && !boxes[frame].Contains(at.First, at.Second)).Take(MostLookedAt).ToArray();
        var likely = outside.Select(at => Explain(at, boxes, frames)).OfType<string>().GroupBy(sentence => sentence).MaxBy(group => group.Count());
        return likely is not null && 2 * likely.Count() > outside.Length
            ? string.Create(CultureInfo.InvariantCulture, $"{likely.Count()} of these: {likely.Key.TrimEnd('.')}")
            : null;
    }

    private static string? Explain(RecordedPosition at, Dictionary<Frame, FrameBox> boxes, SiteFrames frames)
    {
        ProjectedCrs crs = frames.Current.Crs;
        FrameBox box = boxes[Frame.ProjectedCrs];
        ProjectedCoordinate middle = new((box.LeastFirst + box.MostFirst) / 2, (box.LeastSecond + box.MostSecond) / 2);
        double reach = Math.Sqrt(Math.Pow(box.MostFirst - box.LeastFirst, 2) + Math.Pow(box.MostSecond - box.LeastSecond, 2)) / 2;
        GeographicCoordinate expected = crs.Unproject(middle);
        return at.Frame switch
        {
            Frame.ProjectedCrs => FrameSuspicion.Explain(crs, new ProjectedCoordinate(at.First, at.Second), expected, reach),
            Frame.Geographic => FrameSuspicion.Explain(crs, new GeographicCoordinate(at.First, at.Second), expected, reach),
            _ when boxes[Frame.SiteGrid].Contains(at.First * FootMetres, at.Second * FootMetres) => "These look like feet: read as feet, the point lies at the site.",
            _ when boxes[Frame.SiteGrid].Contains(at.First / 1000, at.Second / 1000) => "These look like millimetres: read as millimetres, the point lies at the site.",
            _ => null,
        };
    }
}
