using System.Net;
using Shouldly;
using SiteProgress.Browser.Tests.RecordsIn;
using Xunit;

namespace SiteProgress.Browser.Tests.Shell;

/// <summary>What people and programs are told while the server of the database is gone.</summary>
public sealed class StoreAwayTests(KillableSite site) : IClassFixture<KillableSite>
{
    [Fact]
    public async Task Pages_sign_in_and_programs_are_told_that_the_store_is_away_and_when_to_ask_again()
    {
        await site.KillServerAsync();

        foreach (var address in new[] { "/", "/sites/sandlark/piles", "/sites/sandlark/map", "/account" })
        {
            using var page = await site.GetAsync(address);
            page.StatusCode.ShouldBe(HttpStatusCode.ServiceUnavailable, address);
            (await page.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)).ShouldContain("The store d", customMessage: address);
        }

        using var program = await site.GetAsync("/api/v1/sites/sandlark/piles");
        program.StatusCode.ShouldBe(HttpStatusCode.ServiceUnavailable);
        program.Headers.RetryAfter.ShouldNotBeNull();
        program.Content.Headers.ContentType!.MediaType.ShouldBe("application/problem+json");
        (await program.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)).ShouldContain("The store did not answer");

        using var signIn = await site.TrySignInAsync();
        signIn.StatusCode.ShouldBe(HttpStatusCode.ServiceUnavailable);
        (await signIn.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)).ShouldContain("The store does not answer");
    }
}
