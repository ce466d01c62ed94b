namespace SiteProgress.Web.SiteGrid;

/// <summary>A pasted list of points, as the form sends it.</summary>
public sealed class PointListEntry
{
    /// <summary>Points of one list at most.</summary>
    public static int MostLines => 10_000;

    /// <summary>Frame of the points, as in addresses.</summary>
    public string? From { get; set; }

    /// <summary>The list.</summary>
    public string? Text { get; set; }
}
