using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Exchange;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>
/// Where a site is in each of its frames: around its marks, the outlines of its zones and the piles designed before the file
/// that is looked at, so that a file cannot vouch for its own positions.
/// </summary>
internal static class SitePlace
{
    /// <summary>How far beyond its marks, outlines and piles a site may reach (common practice, no source).</summary>
    private const double MarginMetres = 500;

    private const double MetresPerDegreeOfLatitude = 111_000;

    /// <summary>The boxes by frame; none before an adjustment is adopted.</summary>
    /// <param name="site">The site.</param>
    /// <param name="uptoSequence">Piles of later schedule rows are left out.</param>
    public static Dictionary<Frame, FrameBox> Boxes(DerivedSite site, long uptoSequence)
    {
        if (site.Frames is not { } frames) return [];
        SiteCoordinate[] corners = Known(site, uptoSequence).ToArray();
        if (corners.Length == 0) return [];
        ProjectedCoordinate[] projected = new ProjectedCoordinate[corners.Length];
        GeographicCoordinate[] geographic = new GeographicCoordinate[corners.Length];
        frames.Current.SiteToProjected(corners, projected);
        frames.Current.ProjectedToGeographic(projected, geographic);
        Dictionary<Frame, FrameBox> boxes = new()
        {
            [Frame.SiteGrid] = FrameBox.Around(corners.Select(at => new RecordedPosition(Frame.SiteGrid, at.XMetres, at.YMetres)), MarginMetres),
            [Frame.ProjectedCrs] = FrameBox.Around(projected.Select(at => new RecordedPosition(Frame.ProjectedCrs, at.EastingMetres, at.NorthingMetres)), MarginMetres),
        };
        if (geographic.All(at => double.IsFinite(at.LatitudeDegrees) && Math.Abs(at.LatitudeDegrees) < 85))
        {
            // One margin for both axes: a degree of longitude is the shorter one.
            double margin = MarginMetres / (MetresPerDegreeOfLatitude * Math.Cos(geographic.Max(at => Math.Abs(at.LatitudeDegrees)) * Math.PI / 180));
            boxes[Frame.Geographic] = FrameBox.Around(geographic.Select(at => new RecordedPosition(Frame.Geographic, at.LatitudeDegrees, at.LongitudeDegrees)), margin);
        }

        return boxes;
    }

    private static IEnumerable<SiteCoordinate> Known(DerivedSite site, long uptoSequence)
    {
        IEnumerable<SiteCoordinate> marks = site.History.Adjustments[^1].ControlPoints.Select(mark => mark.Site);
        IEnumerable<SiteCoordinate> outlines = site.History.Settings!.Zones
            .SelectMany(zone => zone.Outline).Where(corner => corner.Length >= 2).Select(corner => new SiteCoordinate(corner[0], corner[1]));
        IEnumerable<SiteCoordinate> piles = site.Piles
            .Where(pile => pile.Judgement.Pile.Sequence <= uptoSequence).Select(pile => pile.Judgement.Pile.Position);
        return marks.Concat(outlines).Concat(piles);
    }
}
