using System.Globalization;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Shouldly;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace SiteProgress.Browser.Tests.MainJob;

/// <summary>From the map to the numbers behind one pile that is off.</summary>
[Collection(ServedSites.Collection)]
public sealed partial class FindingTests(ServedSites sites) : BrowserTest(sites)
{
    // The demonstration's own account of its frames: its Y axis bears 33 degrees east of CRS grid north.
    private const double BearingOfSecondAxis = 33 * Math.PI / 180;
    private const double RadialLimitMillimetres = 150;

    [Fact]
    public async Task A_pile_beyond_its_limit_is_found_on_the_map_and_its_record_shows_the_deviation_of_the_raw_rows()
    {
        var beyond = BeyondTheLimit();
        var visit = await VisitAsync(Person.Surveyor);
        await visit.GoAsync($"/sites/{ServedSites.Demo}/map?zone=A");
        await visit.Page.Locator("[data-map=ready]").WaitForAsync();
        await visit.Page.Locator(".map-group-states").GetByRole(AriaRole.Button, new() { NameRegex = FindingChip() }).ClickAsync();
        await visit.Page.GetByText("Piles in view").ClickAsync();
        // The list follows the filter a moment later, so the link is waited for, not picked from what stands there first.
        var found = visit.Page.Locator(".map-list a").Filter(new() { HasText = "finding" }).Filter(new() { HasTextRegex = new Regex(string.Join('|', beyond.Keys)) }).First;
        await found.ClickAsync();

        await visit.Page.WaitForURLAsync(url => url.Contains("/piles/", StringComparison.Ordinal));
        var number = new Uri(visit.Page.Url).Segments[^1];
        await Expect(visit.Page.GetByRole(AriaRole.Heading, new() { Name = $"Pile {number}" })).ToBeVisibleAsync();
        var (alongX, alongY) = beyond[number];
        var (sine, cosine) = Math.SinCos(BearingOfSecondAxis);
        await ShouldShowAsync(visit, "along X, along Y", alongX, alongY);
        await ShouldShowAsync(visit, "dE, dN (CRS grid)", alongX * cosine + alongY * sine, alongY * cosine - alongX * sine);
        await ShouldShowAsync(visit, "radial", Math.Sqrt(alongX * alongX + alongY * alongY));
        var position = visit.Page.GetByRole(AriaRole.Row).Filter(new() { Has = visit.Page.GetByRole(AriaRole.Rowheader, new() { Name = "position", Exact = true }) });
        await Expect(position).ToContainTextAsync("not met");
    }

    private static async Task ShouldShowAsync(Visit visit, string label, params double[] millimetres)
    {
        var text = (await visit.Figure(label).InnerTextAsync()).Replace("mm", "", StringComparison.Ordinal);
        var shown = text.Split(',').Select(number => double.Parse(number.Trim().Replace('\u2212', '-').Replace("\u2009", "", StringComparison.Ordinal), CultureInfo.InvariantCulture)).ToArray();
        shown.Length.ShouldBe(millimetres.Length, label);
        // Whole millimetres are shown, so half of one is the most that rounding may take.
        foreach (var (number, expected) in shown.Zip(millimetres)) number.ShouldBe(expected, 0.501, label);
    }

    /// <summary>
    /// Piles of zone A with one complete, RTK-fixed attempt beyond the limit: number and deviation along X and Y in millimetres,
    /// by plain subtraction of the rows of Tern, which writes site-grid metres.
    /// </summary>
    private static Dictionary<string, (double X, double Y)> BeyondTheLimit()
    {
        var planned = Rows("planned-piles-zone-a.csv").ToDictionary(row => row["Pile No"]);
        var built = Directory.GetFiles(ServedSites.SeedFile("as-built"), "*-tern.csv")
            .SelectMany(file => Rows(Path.Combine("as-built", Path.GetFileName(file)))).GroupBy(row => row["Pile No"].Trim());
        var beyond = new Dictionary<string, (double X, double Y)>();
        foreach (var attempts in built.Where(attempts => attempts.Count() == 1 && planned.ContainsKey(attempts.Key)))
        {
            var (row, design) = (attempts.Single(), planned[attempts.Key]);
            if (row["Outcome"] != "complete" || row["Fix"] != "RTK fixed") continue;
            var farther = new[] { "touch-down", "end" }
                .Select(moment => (X: Millimetres(row, design, "X", moment), Y: Millimetres(row, design, "Y", moment))).MaxBy(off => off.X * off.X + off.Y * off.Y);
            // Millions of millimetres off is the morning in the wrong frame, which stands for no pile.
            if (Math.Sqrt(farther.X * farther.X + farther.Y * farther.Y) is > RadialLimitMillimetres and < 1000) beyond[attempts.Key] = farther;
        }

        beyond.ShouldNotBeEmpty();
        return beyond;
    }

    private static double Millimetres(Dictionary<string, string> row, Dictionary<string, string> design, string axis, string moment)
        => (double)((decimal.Parse(row[$"{axis} {moment} [m]"], CultureInfo.InvariantCulture) - decimal.Parse(design[$"{axis} [m]"], CultureInfo.InvariantCulture)) * 1000);

    private static IEnumerable<Dictionary<string, string>> Rows(string name)
    {
        var lines = File.ReadAllLines(ServedSites.SeedFile(name));
        var header = lines[0].Split(',');
        return lines.Skip(1).Select(line => header.Zip(line.Split(',')).ToDictionary(cell => cell.First, cell => cell.Second));
    }

    [GeneratedRegex("^finding ")]
    private static partial Regex FindingChip();
}
