namespace SiteProgress.Core.Piles;

/// <summary>Frames and norths as words within a sentence.</summary>
public static class PositionWords
{
    /// <summary>The frame of a position.</summary>
    public static string Of(Frame frame) => frame switch
    {
        Frame.SiteGrid => "the site grid",
        Frame.ProjectedCrs => "the projected CRS of the site",
        Frame.Geographic => "latitude and longitude",
        _ => throw new ArgumentOutOfRangeException(nameof(frame), frame, "There are three frames."),
    };

    /// <summary>The north a heading is counted from.</summary>
    public static string Of(North north) => north switch
    {
        North.TrueNorth => "true north",
        North.CrsGrid => "grid north of the projected CRS",
        North.SiteGrid => "the second axis of the site grid",
        _ => throw new ArgumentOutOfRangeException(nameof(north), north, "There are three norths."),
    };
}
