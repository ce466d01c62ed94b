using Microsoft.Playwright;
using Shouldly;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace SiteProgress.Browser.Tests.MainJob;

/// <summary>Who gets in, and what the others see.</summary>
[Collection(ServedSites.Collection)]
public sealed class SignInTests(ServedSites sites) : BrowserTest(sites)
{
    [Fact]
    public async Task A_person_who_is_not_signed_in_is_led_to_sign_in_and_then_to_the_page_they_asked_for()
    {
        var visit = await VisitAsync();
        await visit.Page.GotoAsync($"/sites/{ServedSites.Demo}/people");
        await Expect(visit.Page.GetByRole(AriaRole.Heading, new() { Name = "Sign in" })).ToBeVisibleAsync();
        (await visit.Page.ContentAsync()).ShouldNotContain("Sandlark Harbour");
        await ServedSites.SignInFormAsync(visit.Page, Person.Surveyor.Email, ServedSites.Password);
        await Expect(visit.Page.GetByRole(AriaRole.Heading, new() { Name = "People" })).ToBeVisibleAsync();
        await visit.LiveAsync();
        new Uri(visit.Page.Url).AbsolutePath.ShouldBe($"/sites/{ServedSites.Demo}/people");
    }

    [Fact]
    public async Task A_wrong_password_is_refused_in_one_sentence_and_shows_nothing()
    {
        var visit = await VisitAsync();
        await visit.Page.GotoAsync("/sign-in");
        await ServedSites.SignInFormAsync(visit.Page, Person.Manager.Email, "not the password");
        await Expect(visit.Page.GetByRole(AriaRole.Alert)).ToContainTextAsync("is not right");
        (await visit.Page.ContentAsync()).ShouldNotContain("Sandlark Harbour");
    }

    [Fact]
    public async Task After_signing_out_the_pages_are_closed_again()
    {
        var visit = await VisitAsync();
        await visit.Page.GotoAsync($"/sites/{ServedSites.Demo}/people");
        await ServedSites.SignInFormAsync(visit.Page, Person.Administrator.Email, ServedSites.Password);
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "Sign out" }).ClickAsync();
        await Expect(visit.Page.GetByRole(AriaRole.Button, new() { Name = "Sign out" })).ToHaveCountAsync(0);
        await visit.Page.GotoAsync($"/sites/{ServedSites.Demo}/people");
        await Expect(visit.Page.GetByRole(AriaRole.Heading, new() { Name = "Sign in" })).ToBeVisibleAsync();
    }
}
