using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using Shouldly;
using Xunit;

namespace SiteProgress.Browser.Tests.MainJob;

/// <summary>The casing that was planted wrong in the demonstration (seed-data/truth/truth-faults.json), as a surveyor reads it.</summary>
[Collection(ServedSites.Collection)]
public sealed partial class PlantedCasingTests(ServedSites sites) : BrowserTest(sites)
{
    [Fact]
    public async Task The_page_of_deviations_names_the_casing_its_days_and_its_size_and_the_barges_common_offset_as_measured_only()
    {
        using var truth = JsonDocument.Parse(await File.ReadAllTextAsync(ServedSites.SeedFile("truth/truth-faults.json"), TestContext.Current.CancellationToken));
        var fault = truth.RootElement.GetProperty("faults").EnumerateArray().Single(one => one.GetProperty("code").GetString() == "casing-offset");
        var visit = await VisitAsync(Person.Surveyor);
        await visit.GoAsync($"/sites/{ServedSites.Demo}/deviations");
        var claims = await visit.Page.GetByRole(Microsoft.Playwright.AriaRole.Main).Locator("ol > li").AllInnerTextsAsync();

        var said = Claim().Match(claims[0].Replace('\u2212', '-'));
        said.Success.ShouldBeTrue(claims[0]);
        said.Groups["casing"].Value.ShouldBe($"Casing {fault.GetProperty("casing").GetInt32()} of {fault.GetProperty("barge").GetString()}");
        Days(said.Groups["from"].Value, fault.GetProperty("firstDay").GetString()!).ShouldBeInRange(-1, 1);
        Days(said.Groups["to"].Value, fault.GetProperty("lastDay").GetString()!).ShouldBeInRange(-1, 1);
        Offset(said, "forward", "ahead", "forward").ShouldBe(1000 * fault.GetProperty("forwardMetres").GetDouble(), 30);
        Offset(said, "side", "aside", "starboard").ShouldBe(1000 * fault.GetProperty("starboardMetres").GetDouble(), 30);
        claims.Skip(1).ShouldAllBe(claim => claim.TrimStart().StartsWith("measured", StringComparison.Ordinal));
        claims.Count.ShouldBeGreaterThan(1);
    }

    private static int Days(string said, string truth)
        => DateOnly.ParseExact(said, "yyyy-MM-dd", CultureInfo.InvariantCulture).DayNumber - DateOnly.ParseExact(truth, "yyyy-MM-dd", CultureInfo.InvariantCulture).DayNumber;

    /// <summary>Millimetres in the direction that counts as positive.</summary>
    private static double Offset(Match said, string number, string word, string positive)
        => double.Parse(said.Groups[number].Value, CultureInfo.InvariantCulture) * (said.Groups[word].Value == positive ? 1 : -1);

    [GeneratedRegex(@"(?<casing>Casing \d+ of \w+) .*?(?<from>\d{4}-\d\d-\d\d) to (?<to>\d{4}-\d\d-\d\d): recorded (?<forward>\d+) \S+ \d+ mm (?<ahead>forward|aft) and (?<side>\d+) \S+ \d+ mm to (?<aside>port|starboard)", RegexOptions.Singleline)]
    private static partial Regex Claim();
}
