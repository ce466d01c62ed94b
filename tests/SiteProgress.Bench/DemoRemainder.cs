using System.Globalization;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Core.SetUps;
using SiteProgress.TestSupport;

namespace SiteProgress.Bench;

/// <summary>
/// The piles of the demo that nothing stands for, read from its plain files: what is planned without what the truth says was built.
/// Zones whose schedule is written on the site grid only; no reader of the product is used.
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
        foreach (string line in (await File.ReadAllLinesAsync(Path.Combine(folder, $"planned-piles-zone-{char.ToLowerInvariant(zone[0])}.csv"))).Skip(1))
        {
            string[] cells = line.Split(separator);
            if (!built.Contains(cells[0])) left.Add(new OpenPile(cells[0], new SiteCoordinate(Number(cells[2]), Number(cells[3]))));
        }

        Barge barge = new("barge", [.. Enumerable.Range(1, 3).Select(number => new Casing(number, 1.2, 1.3, 27, (number - 2) * spacingMetres))], new Hull(60, 24));
        return ($"demo, zone {zone}", new BargePlanRequest(barge, left, [0, 90], 0.05, new AnchorReach(38, 9), left[0].Position, 5, 80, [], 10, [], null));
    }

    private static double Number(string cell) => double.Parse(cell, CultureInfo.InvariantCulture);
}
