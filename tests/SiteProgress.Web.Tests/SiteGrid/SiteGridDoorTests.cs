using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using Shouldly;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Accounts;
using Xunit;

namespace SiteProgress.Web.Tests.SiteGrid;

/// <summary>Site grid and settings as pages, files and answers to programs, over the real server and store.</summary>
public sealed class SiteGridDoorTests(WebDatabase database) : IClassFixture<WebDatabase>, IAsyncLifetime
{
    private readonly string site = "site-" + Guid.NewGuid().ToString("N")[..12];
    private RunningWeb web = null!;

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        web = await RunningWeb.StartAsync(database, "--SiteProgress:SignInAttemptsPerMinute=1000");
        await web.OpenSiteAsync(site);
    }

    public ValueTask DisposeAsync() => web.DisposeAsync();

    [Fact]
    public async Task A_point_in_the_address_is_converted_on_the_page()
    {
        using HttpClient owner = await PersonAsync();
        string page = await owner.GetStringAsync(new Uri($"/sites/{site}/site-grid/convert?from=geographic&first=55%C2%B036'06.2130%22N&second=7.3", UriKind.Relative), Cancellation);

        page.ShouldContain("55.60172583");
        page.ShouldContain("no datum shift is applied");
        (await owner.GetStringAsync(new Uri($"/sites/{site}/site-grid", UriKind.Relative), Cancellation)).ShouldContain("CP-5");
    }

    [Theory]
    [InlineData("from=geographic&first=7.3&second=55.6", "Latitude and longitude look swapped")]
    [InlineData("from=site-grid&first=abc&second=1", "is not a number of metres")]
    [InlineData("from=site-grid&first=1&second=", "A coordinate is missing")]
    [InlineData("from=nonsense&first=%3Cscript%3E&second=%3Cb%3E", "&lt;script&gt;")]
    [InlineData("from=projected-crs&first=-1e308&second=1e308", "is not a number of metres")]
    [InlineData("from=projected-crs&first=999999999&second=999999999", "EPSG:25832")]
    public async Task A_wrong_point_gets_a_sentence_and_no_numbers(string query, string said)
    {
        using HttpClient owner = await PersonAsync();
        HttpResponseMessage answer = await owner.GetAsync(new Uri($"/sites/{site}/site-grid/convert?{query}", UriKind.Relative), Cancellation);

        answer.StatusCode.ShouldBe(HttpStatusCode.OK);
        string page = await answer.Content.ReadAsStringAsync(Cancellation);
        page.ShouldContain(said);
        page.ShouldNotContain("The point in all frames");
    }

    [Fact]
    public async Task A_pasted_list_is_converted_on_the_page_and_as_a_file()
    {
        using HttpClient owner = await PersonAsync();
        string address = $"/sites/{site}/site-grid/convert";
        (string, string)[] typed = [("List.From", "site-grid"), ("List.Text", "CP-1\t940.0\t1958.4\nwrong\n=1+1;1250;2030\n")];

        string page = await (await RunningWeb.SendFormAsync(owner, address, "convert-list", typed)).Content.ReadAsStringAsync(Cancellation);
        page.ShouldContain("2 of 3 points converted.");
        page.ShouldContain("found 1 cell.");

        HttpResponseMessage file = await RunningWeb.SendFormAsync(owner, address, $"/sites/{site}/site-grid/converted.csv", "convert-list", typed);
        string[] lines = (await file.Content.ReadAsStringAsync(Cancellation)).Split("\r\n");
        lines.Length.ShouldBe(5);
        lines[1].ShouldStartWith("1,CP-1,940.0000,1958.4000,39258");
        lines[3].ShouldStartWith("3,'=1+1,1250.0000,2030.0000,");
    }

    [Fact]
    public async Task Programs_read_the_site_grid_and_convert_points()
    {
        Guid person = await web.PersonAsync($"{Guid.NewGuid():N}@example.org");
        await web.GrantAsync(site, person, Role.OwnersRepresentative);
        using HttpClient program = web.Browser();
        program.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", await web.Services.GetRequiredService<PersonalTokens>().MakeAsync(person, "test", Cancellation));

        JsonElement grid = await program.GetFromJsonAsync<JsonElement>(new Uri($"/api/v1/sites/{site}/site-grid", UriKind.Relative), Cancellation);
        grid.GetProperty("redundancy").GetInt32().ShouldBe(8);
        HttpResponseMessage converted = await program.PostAsJsonAsync(
            new Uri($"/api/v1/sites/{site}/convert", UriKind.Relative), new { from = "siteGrid", points = new[] { new[] { 0.0, 0.0 }, [1250.0, 2030.0] } }, Cancellation);
        JsonElement[] points = [.. (await converted.Content.ReadFromJsonAsync<JsonElement>(Cancellation)).GetProperty("points").EnumerateArray()];
        points[0].GetProperty("eastingMetres").GetDouble().ShouldBe(grid.GetProperty("originEastingMetres").GetDouble(), 1e-6);
        points[1].GetProperty("latitudeDegrees").GetDouble().ShouldBeInRange(55.5, 55.7);

        foreach (object bad in new object[] { new { from = "feet", points = Array.Empty<double[]>() }, new { from = "siteGrid" }, new { from = "siteGrid", points = new[] { new[] { 1.0 } } } })
        {
            HttpResponseMessage refused = await program.PostAsJsonAsync(new Uri($"/api/v1/sites/{site}/convert", UriKind.Relative), bad, Cancellation);
            refused.StatusCode.ShouldBe(HttpStatusCode.BadRequest);
            refused.Content.Headers.ContentType!.MediaType.ShouldBe("application/problem+json");
        }
    }

    [Fact]
    public async Task The_settings_are_shown_with_limits_and_their_approval()
    {
        using HttpClient owner = await PersonAsync();
        string page = await owner.GetStringAsync(new Uri($"/sites/{site}/settings", UriKind.Relative), Cancellation);

        foreach (string said in new[] { "Europe/Copenhagen", "SH-OR-03", "rectangular", "Plover", "Long Shoal", "0.820", "position, top, tip, sand" }) page.ShouldContain(said);
        JsonElement answer = await owner.GetFromJsonAsync<JsonElement>(new Uri($"/api/v1/sites/{site}/settings", UriKind.Relative), Cancellation);
        answer.GetProperty("projectedCrs").GetInt32().ShouldBe(25832);
    }

    private async Task<HttpClient> PersonAsync()
    {
        string email = $"{Guid.NewGuid():N}@example.org";
        await web.GrantAsync(site, await web.PersonAsync(email), Role.OwnersRepresentative);
        HttpClient browser = web.Browser();
        await RunningWeb.SignInAsync(browser, email);
        return browser;
    }
}
