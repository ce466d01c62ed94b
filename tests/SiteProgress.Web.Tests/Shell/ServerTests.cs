using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.Extensions.DependencyInjection;
using Shouldly;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Accounts;
using SiteProgress.Web.Shell;
using Xunit;

namespace SiteProgress.Web.Tests.Shell;

/// <summary>What the server answers whoever asks, over the real server and store.</summary>
public sealed partial class ServerTests(WebDatabase database) : IClassFixture<WebDatabase>, IAsyncLifetime
{
    private RunningWeb web = null!;

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private string Email { get; } = $"{Guid.NewGuid():N}@example.org";

    private string Code { get; } = "site-" + Guid.NewGuid().ToString("N")[..8];

    public async ValueTask InitializeAsync() => web = await RunningWeb.StartAsync(database, "--SiteProgress:SignInAttemptsPerMinute=1000");

    public ValueTask DisposeAsync() => web.DisposeAsync();

    [Theory]
    [InlineData("/sign-in")]
    [InlineData("/health/live")]
    [InlineData("/openapi/v1.json")]
    [InlineData("/api/v1/anti-forgery")]
    public async Task Every_answer_says_what_a_browser_may_do(string address)
    {
        using HttpClient browser = web.Browser();
        HttpResponseHeaders headers = (await GetAsync(browser, address)).Headers;
        string policy = headers.GetValues("Content-Security-Policy").Single();
        policy.ShouldContain("default-src 'self'");
        policy.ShouldContain("frame-ancestors 'none'");
        policy.Split("; ").Single(part => part.StartsWith("script-src", StringComparison.Ordinal)).ShouldNotContain("unsafe");
        policy.Split("; ").Single(part => part.StartsWith("style-src ", StringComparison.Ordinal)).ShouldBe("style-src 'self'");
        headers.GetValues("X-Content-Type-Options").Single().ShouldBe("nosniff");
        headers.GetValues("X-Frame-Options").Single().ShouldBe("DENY");
        headers.GetValues("Referrer-Policy").Single().ShouldBe("same-origin");
        headers.Contains("Permissions-Policy").ShouldBeTrue();
    }

    [Fact]
    public async Task The_only_inline_script_is_the_import_map_with_this_answers_value()
    {
        using HttpClient browser = web.Browser();
        HttpResponseMessage answer = await GetAsync(browser, "/sign-in");
        string html = await answer.Content.ReadAsStringAsync(Cancellation);
        List<string> inline = [.. ScriptTag().Matches(html).Select(match => match.Value).Where(tag => !tag.Contains("src=", StringComparison.Ordinal))];
        string tag = inline.ShouldHaveSingleItem();
        tag.ShouldContain("type=\"importmap\"");
        string nonce = WebUtility.HtmlDecode(Nonce().Match(tag).Groups[1].Value);
        answer.Headers.GetValues("Content-Security-Policy").Single().ShouldContain($"'nonce-{nonce}'");
        (await GetAsync(browser, "/sign-in")).Headers.GetValues("Content-Security-Policy").Single().ShouldNotContain(nonce);
        html.ShouldNotContain(" style=");
        html.ShouldNotContain("onclick=");
    }

    [Theory]
    [InlineData("/")]
    [InlineData("/account")]
    [InlineData("/sites/any/people")]
    [InlineData("/sites/any/find?pile=A1")]
    public async Task Somebody_not_signed_in_is_led_to_the_sign_in_page(string address)
    {
        using HttpClient browser = web.Browser();
        HttpResponseMessage answer = await GetAsync(browser, address);
        answer.StatusCode.ShouldBe(HttpStatusCode.Redirect);
        answer.Headers.Location!.PathAndQuery.ShouldStartWith("/sign-in?to=");
    }

    [Fact]
    public async Task Programs_get_problem_details_and_never_an_exceptions_text()
    {
        using HttpClient program = web.Browser();
        HttpResponseMessage answer = await GetAsync(program, "/api/v1/anti-forgery");
        answer.StatusCode.ShouldBe(HttpStatusCode.Unauthorized);
        answer.Content.Headers.ContentType!.MediaType.ShouldBe("application/problem+json");

        await SignInAsync(program);
        HttpResponseMessage failed = await GetAsync(program, "/api/v1/only-in-tests/failure");
        failed.StatusCode.ShouldBe(HttpStatusCode.InternalServerError);
        failed.Content.Headers.ContentType!.MediaType.ShouldBe("application/problem+json");
        string body = await failed.Content.ReadAsStringAsync(Cancellation);
        body.ShouldNotContain("a secret of the server");
        body.ShouldContain("traceId");
    }

    [Fact]
    public async Task A_site_without_a_role_answers_like_one_that_is_not_there()
    {
        await web.OpenSiteAsync(Code);
        using HttpClient browser = web.Browser();
        await SignInAsync(browser);
        HttpResponseMessage without = await GetAsync(browser, $"/sites/{Code}/people");
        HttpResponseMessage none = await GetAsync(browser, "/sites/no-such-site/people");
        without.StatusCode.ShouldBe(HttpStatusCode.NotFound);
        none.StatusCode.ShouldBe(HttpStatusCode.NotFound);
        MainOf(await without.Content.ReadAsStringAsync(Cancellation)).ShouldBe(MainOf(await none.Content.ReadAsStringAsync(Cancellation)));
    }

    [Fact]
    public async Task A_page_opens_with_a_role_and_is_gone_when_the_role_is_withdrawn()
    {
        await web.OpenSiteAsync(Code);
        using HttpClient browser = web.Browser();
        Guid person = await SignInAsync(browser);
        await web.GrantAsync(Code, person, Role.Surveyor);

        HttpResponseMessage open = await GetAsync(browser, $"/sites/{Code}/people");
        open.StatusCode.ShouldBe(HttpStatusCode.OK);
        string html = await open.Content.ReadAsStringAsync(Cancellation);
        html.ShouldContain("Invented demonstration data");
        html.ShouldContain("surveyor");
        html.ShouldNotContain("Grant a role");
        open.Headers.CacheControl!.NoStore.ShouldBeTrue();

        await web.WithdrawAsync(Code, person);
        (await GetAsync(browser, $"/sites/{Code}/people")).StatusCode.ShouldBe(HttpStatusCode.NotFound);
    }

    [Fact]
    public async Task The_search_box_leads_to_the_record_of_the_pile()
    {
        using HttpClient browser = web.Browser();
        await SignInAsync(browser);
        HttpResponseMessage answer = await GetAsync(browser, "/sites/any/find?pile=%20a-12%20");
        answer.Headers.Location!.ToString().ShouldBe("/sites/any/piles/A-12");
        (await GetAsync(browser, "/sites/any/find?pile=%2F%2Fevil.example.org")).Headers.Location!.ToString().ShouldStartWith("/sites/any/piles/");
    }

    [Fact]
    public async Task A_token_acts_with_its_persons_role_at_that_moment_and_not_after_it_is_revoked()
    {
        await web.OpenSiteAsync(Code);
        Guid person = await web.PersonAsync(Email);
        PersonalTokens tokens = web.Services.GetRequiredService<PersonalTokens>();
        using HttpClient program = web.Browser();
        program.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", await tokens.MakeAsync(person, "logger", Cancellation));

        (await PostAsync(program)).StatusCode.ShouldBe(HttpStatusCode.NotFound);
        await web.GrantAsync(Code, person, Role.OwnersRepresentative);
        HttpResponseMessage refused = await PostAsync(program);
        refused.StatusCode.ShouldBe(HttpStatusCode.Forbidden);
        (await refused.Content.ReadAsStringAsync(Cancellation)).ShouldContain("you may not bring records in");
        await web.GrantAsync(Code, person, Role.Surveyor);
        (await PostAsync(program)).StatusCode.ShouldBe(HttpStatusCode.OK);

        await tokens.RevokeAsync(person, (await tokens.ListAsync(person, Cancellation)).Single().Key, Cancellation);
        (await PostAsync(program)).StatusCode.ShouldBe(HttpStatusCode.Unauthorized);
    }

    [Fact]
    public async Task A_token_opens_no_page()
    {
        Guid person = await web.PersonAsync(Email);
        using HttpClient program = web.Browser();
        string token = await web.Services.GetRequiredService<PersonalTokens>().MakeAsync(person, "logger", Cancellation);
        program.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", token);
        (await GetAsync(program, "/account")).StatusCode.ShouldBe(HttpStatusCode.Redirect);
    }

    [Fact]
    public async Task A_change_made_with_the_cookie_needs_the_anti_forgery_header()
    {
        await web.OpenSiteAsync(Code);
        using HttpClient browser = web.Browser();
        await web.GrantAsync(Code, await SignInAsync(browser), Role.Surveyor);

        (await PostAsync(browser)).StatusCode.ShouldBe(HttpStatusCode.BadRequest);

        Api.AntiforgeryValue value = (await browser.GetFromJsonAsync<Api.AntiforgeryValue>("/api/v1/anti-forgery", Cancellation)).ShouldNotBeNull();
        browser.DefaultRequestHeaders.Add(value.Header, value.Value);
        (await PostAsync(browser)).StatusCode.ShouldBe(HttpStatusCode.OK);
    }

    [Fact]
    public async Task Health_and_the_description_of_the_interface_answer_without_sign_in()
    {
        using HttpClient browser = web.Browser();
        (await browser.GetStringAsync(new Uri("/health/live", UriKind.Relative), Cancellation)).ShouldBe("live");
        (await browser.GetStringAsync(new Uri("/health/ready", UriKind.Relative), Cancellation)).ShouldBe("ready");
        using JsonDocument described = JsonDocument.Parse(await browser.GetStringAsync(new Uri("/openapi/v1.json", UriKind.Relative), Cancellation));
        described.RootElement.GetProperty("paths").EnumerateObject().ShouldAllBe(path => path.Name.StartsWith("/api/v1/"));
    }

    [Fact]
    public async Task Another_name_for_this_machine_is_not_served()
    {
        using HttpClient browser = web.Browser();
        browser.DefaultRequestHeaders.Host = "rebound.example.org";
        (await GetAsync(browser, "/sign-in")).StatusCode.ShouldBe(HttpStatusCode.BadRequest);
    }

    [Fact]
    public async Task A_session_ends_when_the_account_is_closed()
    {
        using HttpClient browser = web.Browser();
        Guid person = await SignInAsync(browser);
        await using (AsyncServiceScope work = web.Services.CreateAsyncScope())
            await work.ServiceProvider.GetRequiredService<CloseAccount>().RunAsync(Email);
        Sessions sessions = web.Services.GetRequiredService<Sessions>();
        (await sessions.HoldsAsync(person, null, Cancellation)).ShouldBeFalse();
        (await RunningWeb.SignInAsync(browser, Email)).StatusCode.ShouldBe(HttpStatusCode.OK);
    }

    private async Task<Guid> SignInAsync(HttpClient browser)
    {
        Guid person = await web.PersonAsync(Email);
        (await RunningWeb.SignInAsync(browser, Email)).StatusCode.ShouldBe(HttpStatusCode.Redirect);
        return person;
    }

    private Task<HttpResponseMessage> PostAsync(HttpClient program)
        => program.PostAsync(new Uri($"/api/v1/sites/{Code}/only-in-tests", UriKind.Relative), null, Cancellation);

    private static Task<HttpResponseMessage> GetAsync(HttpClient browser, string address) => browser.GetAsync(new Uri(address, UriKind.Relative), Cancellation);

    private static string MainOf(string html)
    {
        string main = html[html.IndexOf("<main", StringComparison.Ordinal)..html.IndexOf("</main>", StringComparison.Ordinal)];
        return ServerMark().Replace(main, "");
    }

    [GeneratedRegex("<script[^>]*>")]
    private static partial Regex ScriptTag();

    [GeneratedRegex("nonce=\"([^\"]+)\"")]
    private static partial Regex Nonce();

    // The framework's own marks around a live part differ at every rendering.
    [GeneratedRegex("<!--Blazor:.*?-->", RegexOptions.Singleline)]
    private static partial Regex ServerMark();
}
