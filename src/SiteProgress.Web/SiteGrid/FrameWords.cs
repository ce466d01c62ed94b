using SiteProgress.Core.Piles;
using SiteProgress.Web.Shell;
using Frame = SiteProgress.Core.Piles.Frame;

namespace SiteProgress.Web.SiteGrid;

/// <summary>The three frames in words and in addresses.</summary>
public static class FrameWords
{
    /// <summary>The frames in the order in which they are offered.</summary>
    public static readonly IReadOnlyList<Frame> All = [Frame.SiteGrid, Frame.ProjectedCrs, Frame.Geographic];

    /// <summary>Word in addresses.</summary>
    public static string InAddress(Frame frame) => frame switch
    {
        Frame.SiteGrid => "site-grid",
        Frame.ProjectedCrs => "projected-crs",
        Frame.Geographic => "geographic",
        _ => throw new ArgumentOutOfRangeException(nameof(frame), frame, "There are three frames."),
    };

    /// <summary>The frame of an address word; the site grid for a word nobody knows.</summary>
    public static Frame FromAddress(string? word) => All.FirstOrDefault(frame => InAddress(frame) == word, Frame.SiteGrid);

    /// <summary>Words with the names of the two coordinates.</summary>
    public static string Words(Frame frame, GridAxes axes)
    {
        ArgumentNullException.ThrowIfNull(axes);
        return frame switch
        {
            Frame.SiteGrid => $"site grid: {axes.First}, {axes.Second}",
            Frame.ProjectedCrs => "projected CRS: easting, northing",
            _ => "latitude, longitude",
        };
    }

    /// <summary>A number of a frame as it is shown.</summary>
    public static string Number(Frame frame, double value) => frame == Frame.Geographic ? Show.Degrees(value) : Show.Coordinate(value);
}
