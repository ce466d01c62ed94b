using SiteProgress.Core.Coordinates;
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
    public static Frame FromAddress(string? word) => word == OtherDatum ? Frame.Geographic : All.FirstOrDefault(frame => InAddress(frame) == word, Frame.SiteGrid);

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

    /// <summary>The address word of latitude and longitude on another datum, by a named shift.</summary>
    public static string OtherDatum => "other-datum";

    /// <summary>A projected CRS by its code, or by its name where it was pasted in.</summary>
    public static string Crs(ProjectedCrs crs)
    {
        ArgumentNullException.ThrowIfNull(crs);
        return crs.EpsgCode == 0 ? crs.Name : $"EPSG:{crs.EpsgCode}";
    }

    /// <summary>The EPSG code of a shift in an address; null where none is chosen.</summary>
    public static int? Shift(string? word) => int.TryParse(word, System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out int code) ? code : null;

    /// <summary>A number of a frame as it is shown.</summary>
    public static string Number(Frame frame, double value) => frame == Frame.Geographic ? Show.Degrees(value) : Show.Coordinate(value);
}
