using System.Net;
using Shouldly;
using Xunit;

namespace SiteProgress.Web.Tests.SignIn;

/// <summary>How often one address may try.</summary>
public sealed class RateLimitTests(WebDatabase database) : IClassFixture<WebDatabase>
{
    [Fact]
    public async Task After_the_allowed_attempts_an_address_has_to_wait_but_pages_still_open()
    {
        await using RunningWeb web = await RunningWeb.StartAsync(database, "--SiteProgress:SignInAttemptsPerMinute=3");
        using HttpClient browser = web.Browser();
        for (int attempt = 0; attempt < 3; attempt++)
            (await RunningWeb.SignInAsync(browser, "nobody@example.org")).StatusCode.ShouldBe(HttpStatusCode.OK);
        HttpResponseMessage refused = await RunningWeb.SignInAsync(browser, "nobody@example.org");
        refused.StatusCode.ShouldBe(HttpStatusCode.TooManyRequests);
        (await refused.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)).ShouldContain("Wait a minute");
        (await browser.GetAsync(new Uri("/sign-in", UriKind.Relative), TestContext.Current.CancellationToken)).StatusCode.ShouldBe(HttpStatusCode.OK);
    }
}
