using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Shouldly;
using SiteProgress.Jobs.Access;
using Xunit;

namespace SiteProgress.Web.Tests.Shell;

/// <summary>Addresses and texts no page ever makes: they are told in a sentence, and are no failure of the server.</summary>
public sealed class OddRequestsTests(WebDatabase database) : IClassFixture<WebDatabase>, IAsyncLifetime
{
    private readonly string code = "site-" + Guid.NewGuid().ToString("N")[..8];
    private RunningWeb web = null!;
    private HttpClient browser = null!;

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        web = await RunningWeb.StartAsync(database, "--SiteProgress:SignInAttemptsPerMinute=1000");
        await web.OpenSiteAsync(code);
        string email = $"{Guid.NewGuid():N}@example.org";
        await web.GrantAsync(code, await web.PersonAsync(email), Role.OwnersRepresentative);
        browser = web.Browser();
        (await RunningWeb.SignInAsync(browser, email)).StatusCode.ShouldBe(HttpStatusCode.Redirect);
    }

    public async ValueTask DisposeAsync()
    {
        browser.Dispose();
        await web.DisposeAsync();
    }

    [Theory]
    [InlineData("history?by=%00")]
    [InlineData("piles.csv?zone=%00")]
    [InlineData("selection?number=%00")]
    [InlineData("installations?barge=%00")]
    [InlineData("deviations?shift=%00")]
    public async Task A_program_that_asks_for_the_character_zero_is_told_so(string asked)
    {
        HttpResponseMessage answer = await GetAsync($"/api/v1/sites/{code}/{asked}");
        answer.StatusCode.ShouldBe(HttpStatusCode.BadRequest);
        (await answer.Content.ReadAsStringAsync(Cancellation)).ShouldContain("the character zero (NUL)");
    }

    [Theory]
    [InlineData("history?by=%00")]
    [InlineData("piles?number=%00")]
    [InlineData("installations?barge=%00")]
    public async Task A_page_asked_for_the_character_zero_says_so_and_does_not_blame_the_store(string asked)
    {
        HttpResponseMessage answer = await GetAsync($"/sites/{code}/{asked}");
        answer.StatusCode.ShouldBe(HttpStatusCode.BadRequest);
        string html = await answer.Content.ReadAsStringAsync(Cancellation);
        html.ShouldContain("the character zero (NUL)");
        html.ShouldNotContain("did not answer");
    }

    [Theory]
    [InlineData("history?from=0001-01-01")]
    [InlineData("history?to=9999-12-31")]
    [InlineData("history?from=-9998-01-01")]
    [InlineData("piles?day=-9998-01-01")]
    [InlineData("installations?day=-9998-01-01")]
    [InlineData("daily-report?day=0001-01-01")]
    [InlineData("daily-report?day=9999-12-31")]
    [InlineData("diary?day=0001-01-01")]
    [InlineData("diary?day=9999-12-31")]
    [InlineData("progress?from=0001-01-01&to=9999-12-31")]
    public async Task A_day_of_no_site_narrows_nothing(string asked)
        => (await GetAsync($"/sites/{code}/{asked}")).StatusCode.ShouldBe(HttpStatusCode.OK);

    [Theory]
    [InlineData("headings=1e308")]
    [InlineData("headings=0,-1e9")]
    [InlineData("direction=1e308")]
    public async Task A_heading_round_the_compass_many_times_is_refused(string asked)
    {
        HttpResponseMessage answer = await GetAsync($"/api/v1/sites/{code}/plan?{asked}");
        answer.StatusCode.ShouldBe(HttpStatusCode.BadRequest);
        (await answer.Content.ReadAsStringAsync(Cancellation)).ShouldContain("between -360 and 360 degrees");
    }

    [Theory]
    [InlineData("-9998-01-01")]
    [InlineData("0001-01-01")]
    [InlineData("9999-12-31")]
    public async Task A_due_date_of_no_contract_is_refused_before_it_is_recorded(string day)
    {
        HttpResponseMessage answer = await PostAsync("non-conformances/1/due-date", new { dueOn = day, reason = "because" });
        answer.StatusCode.ShouldBe(HttpStatusCode.UnprocessableEntity);
        (await answer.Content.ReadAsStringAsync(Cancellation)).ShouldContain($"{day} is no day to close something by");
    }

    [Theory]
    [InlineData("non-conformances", """{"findings":[null],"reason":"because"}""")]
    [InlineData("non-conformances", """{"findings":[{"check":"position"}],"reason":"because"}""")]
    [InlineData("hold-points", """{"kind":"trialPiles","name":"first","clause":"4.2","shown":[null],"waiting":[null]}""")]
    public async Task A_list_with_nothing_in_a_place_is_refused_with_a_sentence(string what, string sent)
    {
        HttpResponseMessage answer = await PostAsync(what, JsonDocument.Parse(sent).RootElement);
        answer.StatusCode.ShouldBe(HttpStatusCode.UnprocessableEntity);
        (await answer.Content.ReadAsStringAsync(Cancellation)).ShouldContain("detail");
    }

    private Task<HttpResponseMessage> GetAsync(string address) => browser.GetAsync(new Uri(address, UriKind.Relative), Cancellation);

    private async Task<HttpResponseMessage> PostAsync(string what, object sent)
    {
        JsonElement value = await browser.GetFromJsonAsync<JsonElement>(new Uri("/api/v1/anti-forgery", UriKind.Relative), Cancellation);
        using HttpRequestMessage request = new(HttpMethod.Post, new Uri($"/api/v1/sites/{code}/{what}", UriKind.Relative)) { Content = JsonContent.Create(sent) };
        request.Headers.Add(value.GetProperty("header").GetString()!, value.GetProperty("value").GetString());
        return await browser.SendAsync(request, Cancellation);
    }
}
