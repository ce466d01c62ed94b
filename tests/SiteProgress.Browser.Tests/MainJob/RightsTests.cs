using System.Text.Json;
using Microsoft.Playwright;
using Shouldly;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace SiteProgress.Browser.Tests.MainJob;

/// <summary>What each role may, shown at the browser and tried behind its back.</summary>
[Collection(ServedSites.Collection)]
public sealed class RightsTests(ServedSites sites) : BrowserTest(sites)
{
    private const string Demo = ServedSites.Demo;

    [Fact]
    public async Task Nobody_who_is_not_signed_in_gets_anything_of_a_site_from_any_address()
    {
        var inside = await VisitAsync(Person.Surveyor);
        var pages = await SiteAddresses.PagesAsync(inside);
        var requests = (await VisitAsync()).Context.APIRequest;
        foreach (var page in pages.Append($"/sites/{Demo}/find?pile={SiteAddresses.Pile}"))
        {
            var answer = await requests.GetAsync(page, new() { MaxRedirects = 0 });
            answer.Status.ShouldBe(302, page);
            answer.Headers["location"].ShouldContain("/sign-in", customMessage: page);
            (await answer.TextAsync()).ShouldNotContain("Sandlark Harbour", Case.Insensitive, page);
        }

        foreach (var (method, path) in await SiteAddresses.InterfaceAsync(requests))
        {
            var answer = await requests.FetchAsync(path, new() { Method = method, MaxRedirects = 0 });
            // 415: an address for machines reads the kind of the body before it asks for the key, and says nothing else.
            new[] { 401, 404, 415 }.ShouldContain(answer.Status, $"{method} {path}");
            (await answer.TextAsync()).ShouldNotContain("Sandlark Harbour", Case.Insensitive, path);
        }
    }

    [Fact]
    public async Task The_owners_representative_sees_every_page_and_no_way_to_bring_records_in()
    {
        var visit = await VisitAsync(Person.OwnersRepresentative);
        foreach (var page in await SiteAddresses.PagesAsync(visit))
        {
            var answer = await visit.Page.GotoAsync(page);
            answer!.Status.ShouldBe(200, page);
            await Expect(visit.Page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToBeVisibleAsync();
            // A photo or document beside a pile is a comment, which is theirs to make.
            (await visit.Page.Locator("input[type=file]:not(#attachment-file)").CountAsync()).ShouldBe(0, page);
            (await visit.Page.GetByText("Withdraw this batch").CountAsync()).ShouldBe(0, page);
        }
    }

    [Fact]
    public async Task Upload_is_offered_to_manager_and_surveyor_alone()
    {
        foreach (var person in Person.OfEachRole)
        {
            var visit = await VisitAsync(person);
            await visit.GoAsync($"/sites/{Demo}/records-in");
            var offered = person == Person.Manager || person == Person.Surveyor ? 1 : 0;
            await Expect(visit.Page.Locator("input[type=file]")).ToHaveCountAsync(offered);
            await Expect(visit.Page.GetByRole(AriaRole.Button, new() { Name = "Send and look at it" })).ToHaveCountAsync(offered);
        }
    }

    [Fact]
    public async Task A_file_sent_behind_the_page_by_who_may_not_is_refused_and_nothing_enters()
    {
        var surveyor = await VisitAsync(Person.Surveyor);
        var before = await BatchesAsync(surveyor);
        var addresses = await UploadAddressesAsync(surveyor);
        foreach (var person in new[] { Person.OwnersRepresentative, Person.Administrator })
        {
            var requests = (await VisitAsync(person)).Context.APIRequest;
            // The value the form would carry, so that the refusal is about the right and not about the form.
            var forgery = (await (await requests.GetAsync("/api/v1/anti-forgery")).JsonAsync())!.Value;
            var headers = new Dictionary<string, string> { [forgery.GetProperty("header").GetString()!] = forgery.GetProperty("value").GetString()! };
            foreach (var address in addresses)
            {
                var form = requests.CreateFormData().Append("file", RecordsInSteps.Seed("check-measurements.csv"));
                var answer = await requests.PostAsync(address, new() { Multipart = form, Headers = headers, MaxRedirects = 0 });
                answer.Status.ShouldBe(403, $"{person.Role} {address}: {await answer.TextAsync()}");
                (await answer.TextAsync()).ShouldContain("you may not bring records in");
            }
        }

        (await BatchesAsync(surveyor)).ShouldBe(before);
    }

    [Fact]
    public async Task A_file_sent_from_another_place_with_the_surveyors_cookie_is_refused_and_nothing_enters()
    {
        var visit = await VisitAsync(Person.Surveyor);
        var before = await BatchesAsync(visit);
        var requests = visit.Context.APIRequest;
        foreach (var address in await UploadAddressesAsync(visit))
        {
            var form = requests.CreateFormData().Append("file", RecordsInSteps.Seed("check-measurements.csv"));
            var answer = await requests.PostAsync(address, new() { Multipart = form, MaxRedirects = 0 });
            answer.Status.ShouldBe(400, address);
        }

        (await BatchesAsync(visit)).ShouldBe(before);
    }

    [Fact]
    public async Task For_a_person_without_a_role_the_site_does_not_exist()
    {
        const string email = "passer-by@sandlark.invalid";
        var printed = await Sites.CommandAsync("create-account", "Passer-by", email);
        var link = new Uri(printed.Split('\n').Single(line => line.Contains("/set-password?link=", StringComparison.Ordinal)).Trim());
        var visit = await VisitAsync();
        await visit.Page.GotoAsync(link.PathAndQuery);
        await visit.Page.GetByLabel("New password").FillAsync(ServedSites.Password);
        await visit.Page.GetByLabel("The same again").FillAsync(ServedSites.Password);
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "Set the password" }).ClickAsync();
        await visit.Page.GetByRole(AriaRole.Link, new() { Name = "Sign in" }).ClickAsync();
        await ServedSites.SignInFormAsync(visit.Page, email, ServedSites.Password);
        await Expect(visit.Page.GetByRole(AriaRole.Button, new() { Name = "Sign out" })).ToBeVisibleAsync();

        foreach (var rest in new[] { "people", "map", "records-in", $"piles/{SiteAddresses.Pile}" })
        {
            var real = await SeenAsync(visit, $"/sites/{Demo}/{rest}");
            real.Status.ShouldBe(404, rest);
            real.Text.ShouldNotContain("Sandlark Harbour");
            real.ShouldBe(await SeenAsync(visit, $"/sites/nowhere/{rest}"), rest);
        }

        foreach (var (method, path) in (await SiteAddresses.InterfaceAsync(visit.Context.APIRequest)).Where(one => one.Method == "GET"))
            (await AnswerAsync(visit, path)).ShouldBe(await AnswerAsync(visit, path.Replace($"/{Demo}/", "/nowhere/", StringComparison.Ordinal)), path);
    }

    private static async Task<(int Status, string Text)> SeenAsync(Visit visit, string path)
    {
        visit.Foresee(404, path);
        var answer = await visit.Page.GotoAsync(path);
        return (answer!.Status, (await visit.Page.Locator("body").InnerTextAsync()).Replace("/nowhere", $"/{Demo}", StringComparison.Ordinal));
    }

    private static async Task<(int Status, string? Detail)> AnswerAsync(Visit visit, string path)
    {
        var answer = await visit.Context.APIRequest.GetAsync(path);
        answer.Status.ShouldBe(404, path);
        return (answer.Status, (await answer.JsonAsync())!.Value.GetProperty("detail").GetString());
    }

    /// <summary>Where the form of the open page sends a file, and where programs send one.</summary>
    private static async Task<string[]> UploadAddressesAsync(Visit visit)
    {
        var form = await visit.Page.Locator("form:has(input[type=file])").GetAttributeAsync("action");
        return [form.ShouldNotBeNull(), $"/api/v1/sites/{Demo}/batches"];
    }

    private static async Task<string> BatchesAsync(Visit visit)
    {
        await visit.GoAsync($"/sites/{Demo}/records-in");
        return await visit.Page.GetByRole(AriaRole.Main).InnerTextAsync();
    }
}
