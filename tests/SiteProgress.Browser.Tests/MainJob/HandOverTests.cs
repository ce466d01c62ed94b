using System.Security.Cryptography;
using Microsoft.Playwright;
using Shouldly;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace SiteProgress.Browser.Tests.MainJob;

/// <summary>The manager offers the record, and the owner's representative takes over what reached them.</summary>
[Collection(ServedSites.Collection)]
public sealed class HandOverTests(ServedSites sites) : BrowserTest(sites)
{
    [Fact]
    public async Task The_record_is_offered_and_taken_over_by_the_hash_of_the_package_that_was_downloaded()
    {
        var manager = await VisitAsync(Person.Manager);
        await manager.GoAsync($"/sites/{ServedSites.Demo}/reports");
        await manager.Page.GetByLabel("What is handed over").FillAsync("Record up to now");
        await manager.Page.GetByRole(AriaRole.Button, new() { Name = "Make the package and offer it" }).ClickAsync();
        await Expect(manager.Page.GetByText("Offered. The owner's representative finds it here.")).ToBeVisibleAsync(new() { Timeout = 60_000 });
        await Expect(manager.Page.GetByRole(AriaRole.Button, new() { Name = "Take it over", Exact = true })).ToHaveCountAsync(0);

        var owner = await VisitAsync(Person.OwnersRepresentative);
        await owner.GoAsync($"/sites/{ServedSites.Demo}/reports");
        var offers = owner.Page.GetByRole(AriaRole.Region, new() { Name = "Offers of the record" });
        var address = (await offers.Locator("tbody th a").First.GetAttributeAsync("href")).ShouldNotBeNull();
        var package = await (await owner.Context.APIRequest.GetAsync(address, new() { Timeout = 60_000 })).BodyAsync();
        var held = owner.Page.GetByLabel("SHA-256 of the package you hold");
        var take = owner.Page.GetByRole(AriaRole.Button, new() { Name = "Take it over", Exact = true });

        await held.FillAsync(new string('0', 64));
        await take.ClickAsync();
        await Expect(owner.Page.GetByText("That is not the SHA-256 of the package that was offered")).ToBeVisibleAsync();
        await held.FillAsync(Convert.ToHexString(SHA256.HashData(package)));
        await take.ClickAsync();

        await Expect(offers.Locator("tbody tr").First).ToContainTextAsync("taken over");
        // The manager's page is still open and follows by itself.
        await Expect(manager.Page.GetByRole(AriaRole.Region, new() { Name = "Offers of the record" }).Locator("tbody tr").First).ToContainTextAsync("taken over");
    }
}
