namespace SiteProgress.Web.Shell;

/// <summary>Margins of charts that are true to scale: as wide in sum across as down, so that the ratio of the axes is that of the drawing.</summary>
public static class ChartScale
{
    private const int Wide = 64, Narrow = 12;

    /// <summary>What margins and border take, across and down alike, CSS pixels.</summary>
    public static int Margins => Wide + Narrow + 2;

    /// <summary>The grid of the option.</summary>
    public static object Grid => new { left = Wide, right = Narrow, top = Narrow, bottom = Wide, outerBoundsMode = "none" };
}
