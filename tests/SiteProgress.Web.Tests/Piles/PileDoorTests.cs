using System.Net;
using System.Net.Http.Headers;
using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using Shouldly;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;
using Xunit;

namespace SiteProgress.Web.Tests.Piles;

/// <summary>What the map and the piles answer over HTTP, from the real server and store.</summary>
public sealed class PileDoorTests(WebDatabase database) : IClassFixture<WebDatabase>, IAsyncLifetime
{
    private const string Hostile = "=HYPERLINK(\"http://example.org\")<img src=x onerror=alert(1)>";
    private RunningWeb web = null!;
    private HttpClient browser = null!;

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private string Code { get; } = "site-" + Guid.NewGuid().ToString("N")[..8];

    public async ValueTask InitializeAsync()
    {
        web = await RunningWeb.StartAsync(database, "--SiteProgress:SignInAttemptsPerMinute=1000");
        await web.OpenSiteAsync(Code);
        string email = $"{Guid.NewGuid():N}@example.org";
        Guid person = await web.PersonAsync(email);
        await web.GrantAsync(Code, person, Role.Surveyor);
        await RecordAsync(person, "A-0001", "A-0002");
        browser = web.Browser();
        await RunningWeb.SignInAsync(browser, email);
    }

    public async ValueTask DisposeAsync()
    {
        browser.Dispose();
        await web.DisposeAsync();
    }

    [Fact]
    public async Task Piles_the_browser_holds_are_not_sent_again_until_something_is_recorded()
    {
        HttpResponseMessage first = await GetAsync($"/api/v1/sites/{Code}/map/piles");
        first.StatusCode.ShouldBe(HttpStatusCode.OK);
        first.Content.Headers.ContentType!.MediaType.ShouldBe("application/octet-stream");
        first.Headers.CacheControl!.ToString().ShouldBe("no-cache, private");

        (await GetAsync($"/api/v1/sites/{Code}/map/piles", first.Headers.ETag)).StatusCode.ShouldBe(HttpStatusCode.NotModified);
        await RecordAsync(await web.PersonAsync($"{Guid.NewGuid():N}@example.org"), "A-0003");

        HttpResponseMessage later = await GetAsync($"/api/v1/sites/{Code}/map/piles", first.Headers.ETag);
        later.StatusCode.ShouldBe(HttpStatusCode.OK);
        later.Headers.ETag.ShouldNotBe(first.Headers.ETag);
    }

    [Theory]
    [InlineData("br")]
    [InlineData("gzip")]
    public async Task The_answer_comes_compressed_where_the_browser_takes_it(string coding)
    {
        using HttpRequestMessage request = new(HttpMethod.Get, $"/api/v1/sites/{Code}/map/drawing");
        request.Headers.AcceptEncoding.ParseAdd(coding);

        HttpResponseMessage answer = await browser.SendAsync(request, Cancellation);

        answer.Content.Headers.ContentEncoding.ShouldBe([coding]);
        answer.Content.Headers.ContentType!.MediaType.ShouldBe("application/geo+json");
    }

    [Theory]
    [InlineData("map/piles")]
    [InlineData("map/drawing")]
    [InlineData("piles")]
    [InlineData("piles.csv")]
    [InlineData("piles/A-0001")]
    [InlineData("installations")]
    public async Task A_site_one_has_no_role_on_answers_as_if_it_were_not_there(string address)
    {
        string other = Code + "b";
        await web.OpenSiteAsync(other);

        (await GetAsync($"/api/v1/sites/{other}/{address}")).StatusCode.ShouldBe(HttpStatusCode.NotFound);
        (await GetAsync($"/api/v1/sites/{Code}/{address}")).StatusCode.ShouldBe(HttpStatusCode.OK);
    }

    [Theory]
    [InlineData("piles?state=nothing", "state: 'nothing'")]
    [InlineData("piles.csv?day=yesterday", "day: 'yesterday'")]
    [InlineData("piles?sort=size", "sort: 'size'")]
    [InlineData("installations?show=some", "show: 'some'")]
    public async Task A_word_not_understood_is_refused_by_name(string address, string named)
    {
        HttpResponseMessage answer = await GetAsync($"/api/v1/sites/{Code}/{address}");

        answer.StatusCode.ShouldBe(HttpStatusCode.BadRequest);
        WebUtility.HtmlDecode(JsonDocument.Parse(await answer.Content.ReadAsStringAsync(Cancellation)).RootElement.GetProperty("detail").GetString()!).ShouldContain(named);
    }

    [Fact]
    public async Task The_table_to_keep_holds_the_filtered_piles()
    {
        HttpResponseMessage answer = await GetAsync($"/api/v1/sites/{Code}/piles.csv?number=0002");

        string[] lines = (await answer.Content.ReadAsStringAsync(Cancellation)).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        answer.Content.Headers.ContentDisposition!.DispositionType.ShouldBe("attachment");
        lines.Length.ShouldBe(2);
        lines[1].ShouldStartWith("A-0002,A,outstanding,");
    }

    [Fact]
    public async Task A_remark_reaches_the_page_as_letters_only()
    {
        string html = await (await GetAsync($"/sites/{Code}/piles/A-0001")).Content.ReadAsStringAsync(Cancellation);

        html.ShouldNotContain("<img src=x");
        WebUtility.HtmlDecode(html).ShouldContain(Hostile);
    }

    [Fact]
    public async Task A_number_the_design_does_not_hold_leads_to_the_nearest_ones()
    {
        string html = await (await GetAsync($"/sites/{Code}/piles/A-0009")).Content.ReadAsStringAsync(Cancellation);

        html.ShouldContain($"/sites/{Code}/piles/A-0001");
        html.ShouldContain("is planned on this site");
    }

    [Fact]
    public async Task The_record_as_json_names_verdicts_and_states_by_words()
    {
        JsonElement record = JsonDocument.Parse(await (await GetAsync($"/api/v1/sites/{Code}/piles/A-0001")).Content.ReadAsStringAsync(Cancellation)).RootElement;

        record.GetProperty("state").GetString().ShouldBe("outstanding");
        record.GetProperty("design").GetProperty("place").GetProperty("site").GetProperty("xMetres").GetDouble().ShouldBe(1000);
        record.GetProperty("history").EnumerateArray().Last().GetProperty("kind").GetString().ShouldBe("pilePlanned");
    }

    private async Task<HttpResponseMessage> GetAsync(string address, EntityTagHeaderValue? held = null)
    {
        using HttpRequestMessage request = new(HttpMethod.Get, address);
        if (held is not null) request.Headers.IfNoneMatch.Add(held);
        return await browser.SendAsync(request, Cancellation);
    }

    private async Task RecordAsync(Guid person, params string[] numbers)
    {
        await web.GrantAsync(Code, person, Role.Surveyor);
        Permit permit = (await web.Services.GetRequiredService<Gate>().EnterAsync(person, Code, Cancellation))!;
        BatchBody batch = new(Guid.NewGuid(), "plan.csv", new string('0', 64), BatchContent.PlannedPiles, 1, numbers.Length, numbers.Length, [], []);
        await web.Services.GetRequiredService<SiteRecorder>().AppendAsync(
            permit,
            Right.BringIn,
            _ => [batch, .. numbers.Select((number, index) => new PilePlannedBody(
                index + 2, new AsPlanned(number, "A", new RecordedPosition(Frame.SiteGrid, 1000 + (2.1 * index), 2000), null, null, null, null, Hostile)))],
            Cancellation);
    }
}
