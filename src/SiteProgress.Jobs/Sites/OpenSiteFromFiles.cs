using NodaTime;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange;
using SiteProgress.Exchange.ControlPoints;
using SiteProgress.Jobs.Access;

namespace SiteProgress.Jobs.Sites;

/// <summary>Opens a site from the files an operator wrote.</summary>
[WithoutPermit("A command of the operator at the machine; there is no role on a site before it is opened.")]
public sealed class OpenSiteFromFiles(OpenSite openSite, TimeProvider clock)
{
    /// <summary>Opens a site.</summary>
    /// <param name="settingsPath">Settings file, JSON.</param>
    /// <param name="controlPointsPath">Control points, a text table.</param>
    /// <param name="drawingPath">Site drawing, GeoJSON in site-grid metres; null where there is none.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>The site, or why it was not opened.</returns>
    public async Task<OpenSiteResult> RunAsync(string settingsPath, string controlPointsPath, string? drawingPath, CancellationToken cancellation)
    {
        foreach (string path in new[] { settingsPath, controlPointsPath, drawingPath }.OfType<string>())
        {
            if (!File.Exists(path)) return OpenSiteResult.Refused($"There is no file {path}.");
        }

        TableReading<ControlPoint> marks = ReadControlPoints(controlPointsPath, cancellation);
        if (marks.ProblemCount > 0) return OpenSiteResult.Refused($"{Path.GetFileName(controlPointsPath)}: {marks.Problems[0].Sentence}");
        string settings = await File.ReadAllTextAsync(settingsPath, cancellation);
        string? drawing = drawingPath is null ? null : await File.ReadAllTextAsync(drawingPath, cancellation);
        return await openSite.RunAsync(settings, drawing, marks.Rows.Select(row => row.Value).ToArray(), cancellation);
    }

    private TableReading<ControlPoint> ReadControlPoints(string path, CancellationToken cancellation)
    {
        using FileStream bytes = File.OpenRead(path);
        ReadingChoices choices = new()
        {
            Zones = [],
            Barges = [],
            GridAxes = new GridAxes("X", "Y"),
            PileNumberCharacters = "A-Z0-9-",
            TimeZone = "UTC",
            Now = Instant.FromDateTimeOffset(clock.GetUtcNow()),
        };
        return ControlPointReader.Read(bytes, choices, cancellation);
    }
}
