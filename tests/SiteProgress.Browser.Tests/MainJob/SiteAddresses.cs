using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Shouldly;

namespace SiteProgress.Browser.Tests.MainJob;

/// <summary>Every address of a site, found as a person and a program find them: the ways of the frame, and the described interface.</summary>
internal static partial class SiteAddresses
{
    /// <summary>A pile of the demonstration that is built, in the middle of nothing.</summary>
    public const string Pile = "A-0007";

    /// <summary>The pages a person can go to, with one pile record, one batch and the account.</summary>
    public static async Task<IReadOnlyList<string>> PagesAsync(Visit visit)
    {
        const string site = ServedSites.Demo;
        await visit.GoAsync($"/sites/{site}/people");
        var ways = await visit.Page.Locator("nav.ways a").EvaluateAllAsync<string[]>("all => all.map(link => link.pathname)");
        ways.ShouldContain($"/sites/{site}/map");
        ways.ShouldContain($"/sites/{site}/records-in");
        var batches = await (await visit.Context.APIRequest.GetAsync($"/api/v1/sites/{site}/batches")).JsonAsync();
        var batch = batches!.Value[0].GetProperty("batch").GetInt64();
        return [.. ways, $"/sites/{site}/piles/{Pile}", $"/sites/{site}/installations", $"/sites/{site}/matches", $"/sites/{site}/design/difference", $"/sites/{site}/design/layout", .. Treatment(site), $"/sites/{site}/records-in/{batch}", "/account"];
    }

    /// <summary>Pages that the page of decisions leads to.</summary>
    private static string[] Treatment(string site) =>
    [
        $"/sites/{site}/non-conformances", $"/sites/{site}/non-conformances/2", $"/sites/{site}/lots", $"/sites/{site}/lots/2",
        $"/sites/{site}/hold-points", $"/sites/{site}/accept?zone=A&day=2026-03-05", $"/sites/{site}/piles/A-0001/sheet",
    ];

    /// <summary>Method and address of everything the served description of the interface names for a site, filled in for the demonstration.</summary>
    public static async Task<IReadOnlyList<(string Method, string Path)>> InterfaceAsync(IAPIRequestContext requests)
    {
        var description = (await (await requests.GetAsync("/openapi/v1.json")).JsonAsync())!.Value;
        var all = from path in description.GetProperty("paths").EnumerateObject()
                  where path.Name.Contains("/sites/{site}", StringComparison.Ordinal)
                  from method in path.Value.EnumerateObject()
                  select (method.Name.ToUpperInvariant(), Fill(path.Name));
        return [.. all];
    }

    private static string Fill(string path)
        => Parameter().Replace(path.Replace("{site}", ServedSites.Demo, StringComparison.Ordinal), match => match.Value.Contains("number", StringComparison.OrdinalIgnoreCase) ? Pile : "1");

    [GeneratedRegex(@"\{[^}]+\}")]
    private static partial Regex Parameter();
}
