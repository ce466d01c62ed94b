using System.Globalization;
using System.Numerics;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Core.SetUps;
using SiteProgress.TestSupport;

namespace SiteProgress.Bench;

/// <summary>
/// The piles of the demo that nothing stands for, read from its plain files: what is planned without what the truth says was built.
/// A schedule in eastings and northings is put on the site grid by two control points; no reader of the product is used.
/// </summary>
internal static class DemoRemainder
{
    private static readonly string[] Standing = ["complete", "refused", "offset by instruction"];

    /// <summary>What is asked for a barge of three casings over what is left of a zone.</summary>
    /// <param name="zone">Zone.</param>
    /// <param name="separator">What parts the cells of its schedule.</param>
    /// <param name="spacingMetres">Distance between the casings.</param>
    public static async Task<(string Name, BargePlanRequest Request)> OfZoneAsync(string zone, char separator, double spacingMetres)
    {
        string folder = Path.Combine(Checkout.Folder, "seed-data");
        HashSet<string> built = [];
        await foreach (string line in File.ReadLinesAsync(Path.Combine(folder, "truth", "truth.csv")))
        {
            string[] cells = line.Split(',');
            if (cells.Length > 9 && Standing.Contains(cells[7])) built.Add(cells[9]);
        }

        List<OpenPile> left = [];
        string[] lines = await File.ReadAllLinesAsync(Path.Combine(folder, $"planned-piles-zone-{char.ToLowerInvariant(zone[0])}.csv"));
        string title = lines.First(line => !line.TrimStart('\uFEFF').StartsWith('#'));
        Func<Complex, Complex> toSite = title.Contains("Easting", StringComparison.Ordinal) ? await ToSiteAsync(folder) : at => at;
        foreach (string line in lines.SkipWhile(line => line != title).Skip(1))
        {
            string[] cells = line.Split(separator);
            // A schedule parted by semicolons writes decimal commas.
            Complex at = toSite(new Complex(Number(cells[2].Replace(',', '.')), Number(cells[3].Replace(',', '.'))));
            if (!built.Contains(cells[0])) left.Add(new OpenPile(cells[0], new SiteCoordinate(at.Real, at.Imaginary), zone));
        }

        Barge barge = new("barge", [.. Enumerable.Range(1, 3).Select(number => new Casing(number, 1.2, 1.3, 27, (number - 2) * spacingMetres))], new Hull(60, 24));
        return ($"demo, zone {zone}", new BargePlanRequest(barge, left, [0, 90], 0.05, new AnchorReach(38, 9), left[0].Position, 5, 80, [], 10, [], null));
    }

    /// <summary>The similarity through the first and the last control point, as one division of complex numbers.</summary>
    private static async Task<Func<Complex, Complex>> ToSiteAsync(string folder)
    {
        string[][] points = [.. (await File.ReadAllLinesAsync(Path.Combine(folder, "control-points.csv"))).Skip(1).Where(line => line.Length > 0).Select(line => line.Split(','))];
        Complex Site(string[] cells) => new(Number(cells[1]), Number(cells[2]));
        Complex Map(string[] cells) => new(Number(cells[3]), Number(cells[4]));
        Complex turn = (Site(points[^1]) - Site(points[0])) / (Map(points[^1]) - Map(points[0]));
        return at => Site(points[0]) + (turn * (at - Map(points[0])));
    }

    private static double Number(string cell) => double.Parse(cell, CultureInfo.InvariantCulture);
}
