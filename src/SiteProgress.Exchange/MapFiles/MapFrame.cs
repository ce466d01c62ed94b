using System.Globalization;
using SiteProgress.Core.Piles;

namespace SiteProgress.Exchange.MapFiles;

/// <summary>In which of the site's frames the points of a map file or a drawing lie, and how their columns are titled for it.</summary>
/// <param name="First">Title of the column of x, which is the longitude, the easting or the first axis.</param>
/// <param name="Second">Title of the column of y.</param>
/// <param name="Assumption">How the frame was decided, as a sentence; null where it was not.</param>
/// <param name="Unanswered">What a person must say first; null where the frame is decided.</param>
internal sealed record MapFrame(string First, string Second, string? Assumption, string? Unanswered)
{
    private HashSet<string> _axisNames = [];

    /// <summary>Question to a person where the frame is not decided.</summary>
    public IReadOnlyList<OpenQuestion> Questions => Unanswered is null
        ? []
        : [new OpenQuestion(QuestionKind.Frame, $"In which frame do the points lie? Expected {Unanswered}.")];

    /// <summary>Decides by what a person chose and what the file states.</summary>
    /// <param name="choices">What to read with.</param>
    /// <param name="epsg">EPSG code the file states; null where it states none. 4326 stands for longitude and latitude.</param>
    /// <param name="says">How the file states it, for the sentence.</param>
    /// <param name="unit">Unit of plane coordinates.</param>
    public static MapFrame Decide(ReadingChoices choices, int? epsg, string says, string unit = "m")
    {
        if (choices.Frame is { } chosen)
            return Of(chosen, choices, unit, null);
        if (epsg is 4326)
            return Of(Frame.Geographic, choices, unit, $"Points are longitude and latitude, because {says}; they are taken as on the datum of the site's CRS, without a shift.");
        if (epsg is { } code && choices.ProjectedCrs is { } site && code == site)
            return Of(Frame.ProjectedCrs, choices, unit, $"Points lie in the projected CRS of the site, because {says}.");

        var undecided = Of(Frame.SiteGrid, choices, unit, null);
        return undecided with
        {
            Unanswered = epsg is { } other
                ? string.Create(CultureInfo.InvariantCulture, $"points in a frame of this site; {says}, and the site's CRS {(choices.ProjectedCrs is { } own ? $"is EPSG:{own}" : "was pasted in and has no code")}. Convert the file, or choose the frame if it states the wrong one")
                : $"a choice of the frame of the points, because {says}",
        };
    }

    private static MapFrame Of(Frame frame, ReadingChoices choices, string unit, string? assumption)
    {
        var (first, second) = TextTables.TableLayout.AxisNames(frame, choices.GridAxes);
        var titled = frame is Frame.Geographic
            ? new MapFrame("Longitude [deg]", "Latitude [deg]", assumption, null)
            : new MapFrame($"{first[0]} [{unit}]", $"{second[0]} [{unit}]", assumption, null);
        titled._axisNames = [.. first.Concat(second).Select(TextTables.TableLayout.Normalise)];
        return titled;
    }

    /// <summary>Titles of attributes beside the points' own columns: an attribute that names the same axis is told apart from them.</summary>
    /// <param name="attributes">Titles of the attributes.</param>
    public IReadOnlyList<string> Beside(IEnumerable<string> attributes)
        => [.. attributes.Select(title => _axisNames.Contains(TextTables.ColumnTitle.Of(title).Name) ? $"attribute {title}" : title)];
}
