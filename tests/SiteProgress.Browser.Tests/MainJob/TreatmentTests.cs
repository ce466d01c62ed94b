using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Shouldly;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace SiteProgress.Browser.Tests.MainJob;

/// <summary>A finding treated by two people while a third watches; and what nobody may do.</summary>
[Collection(ServedSites.Collection)]
public sealed partial class TreatmentTests(ServedSites sites) : BrowserTest(sites)
{
    private const string Demo = ServedSites.Demo;
    private const string OwnProposal = "You made this proposal yourself. Somebody else decides; nothing was recorded.";

    [Fact]
    public async Task The_surveyor_proposes_the_owners_representative_decides_with_a_comment_and_the_managers_open_page_counts_along()
    {
        var manager = await VisitAsync(Person.Manager);
        await manager.GoAsync($"/sites/{Demo}/today");
        await manager.Page.EvaluateAsync("window.notReadAnew = true");
        var count = manager.Page.GetByRole(AriaRole.Table, new() { Name = "Decisions that wait" }).GetByRole(AriaRole.Row)
            .Filter(new() { HasText = "proposals to decide" }).GetByRole(AriaRole.Cell);
        var before = int.Parse(await count.InnerTextAsync(), System.Globalization.CultureInfo.InvariantCulture);

        var surveyor = await VisitAsync(Person.Surveyor);
        var pile = await PileWithFindingAsync(surveyor, 0);
        var number = await RaiseAsync(surveyor, pile);
        await ProposeAsync(surveyor);
        await Expect(count).ToHaveTextAsync($"{before + 1}");

        var owner = await VisitAsync(Person.OwnersRepresentative);
        await owner.GoAsync($"/sites/{Demo}/decisions");
        await owner.Page.GetByRole(AriaRole.Link, new() { Name = $"Non-conformance {number}", Exact = true }).ClickAsync();
        await ArrivedAsync(owner, number);
        var decision = owner.Page.GetByRole(AriaRole.Form, new() { Name = "Decide the proposal" });
        await decision.GetByLabel("Comment").FillAsync("Agreed on the designer's note.");
        await decision.GetByRole(AriaRole.Button, new() { Name = "Approve" }).ClickAsync();
        await Expect(owner.Page.GetByText("Approved.", new() { Exact = true })).ToBeVisibleAsync();

        await Expect(count).ToHaveTextAsync($"{before}");
        (await manager.Page.EvaluateAsync<bool>("window.notReadAnew === true")).ShouldBeTrue();
        // The proposer's page was open all the while; it says what was decided, and by whom.
        await Expect(surveyor.Page.GetByRole(AriaRole.Main)).ToContainTextAsync("Agreed on the designer's note.");
        await surveyor.GoAsync($"/sites/{Demo}/piles/{pile}");
        await Expect(surveyor.Page.Locator(".page-head")).ToContainTextAsync("accepted, concession");
    }

    [Fact]
    public async Task Deciding_ones_own_proposal_is_refused_and_kept_in_the_log_also_for_who_has_the_role()
    {
        var surveyor = await VisitAsync(Person.Surveyor);
        var number = await RaiseAsync(surveyor, await PileWithFindingAsync(surveyor, 1));
        await ProposeAsync(surveyor);
        await Sites.CommandAsync("grant-role", Demo, Person.Surveyor.Email, Person.OwnersRepresentative.Role);
        try
        {
            await surveyor.GoAsync($"/sites/{Demo}/non-conformances/{number}");
            await surveyor.Page.GetByRole(AriaRole.Button, new() { Name = "Approve" }).ClickAsync();
            await Expect(surveyor.Page.GetByText(OwnProposal).First).ToBeVisibleAsync();
        }
        finally
        {
            await Sites.CommandAsync("grant-role", Demo, Person.Surveyor.Email, Person.Surveyor.Role);
        }

        await surveyor.GoAsync($"/sites/{Demo}/non-conformances/{number}");
        await Expect(surveyor.Page.Locator(".page-head")).ToContainTextAsync("waits for a decision");
        await ShouldBeLoggedAsync(surveyor, OwnProposal);
    }

    [Fact]
    public async Task A_decision_forged_by_who_may_not_decide_is_refused_and_kept_in_the_log_and_nothing_changes()
    {
        var manager = await VisitAsync(Person.Manager);
        var requests = manager.Context.APIRequest;
        var before = await (await requests.GetAsync($"/api/v1/sites/{Demo}/non-conformances/2")).JsonAsync();
        var seen = before!.Value.GetProperty("hash").GetString();
        var address = $"/api/v1/sites/{Demo}/non-conformances/2/decision";
        var forged = new { yes = true, comment = "forged", seen };
        (await requests.PostAsync(address, new() { DataObject = forged })).Status.ShouldBe(400);

        // With the value a page of theirs would carry, the refusal is about the right.
        var forgery = (await (await requests.GetAsync("/api/v1/anti-forgery")).JsonAsync())!.Value;
        var headers = new Dictionary<string, string> { [forgery.GetProperty("header").GetString()!] = forgery.GetProperty("value").GetString()! };
        var answer = await requests.PostAsync(address, new() { DataObject = forged, Headers = headers });
        answer.Status.ShouldBe(403, await answer.TextAsync());
        (await answer.TextAsync()).ShouldContain("you may not decide");

        var after = await (await requests.GetAsync($"/api/v1/sites/{Demo}/non-conformances/2")).JsonAsync();
        after!.Value.GetProperty("hash").GetString().ShouldBe(seen);
        await ShouldBeLoggedAsync(manager, $"POST {address}: it carries no valid anti-forgery value");
        await ShouldBeLoggedAsync(manager, $"POST {address}: As project manager of this site you may not decide");
    }

    private static async Task<string> PileWithFindingAsync(Visit visit, int skip)
    {
        var answer = await visit.Context.APIRequest.GetAsync($"/api/v1/sites/{Demo}/piles?zone=B&state=finding&finding=position&skip={skip}&take=1");
        return (await answer.JsonAsync())!.Value.GetProperty("piles")[0].GetProperty("number").GetString()!;
    }

    private static async Task<int> RaiseAsync(Visit visit, string pile)
    {
        await visit.GoAsync($"/sites/{Demo}/non-conformances/new?pile={pile}");
        await visit.Page.GetByLabel("Why these are gathered").FillAsync("Casing beyond the limit.");
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "Raise it" }).ClickAsync();
        await visit.Page.WaitForURLAsync(NumberedPage());
        var number = int.Parse(new Uri(visit.Page.Url).Segments[^1], System.Globalization.CultureInfo.InvariantCulture);
        await ArrivedAsync(visit, number);
        return number;
    }

    /// <summary>
    /// Waits for the page a link leads to, and opens it anew: the page before is live until it gives way, so a form could be filled in
    /// before the one that answers takes its place.
    /// </summary>
    private static async Task ArrivedAsync(Visit visit, int number)
    {
        await Expect(visit.Page.GetByRole(AriaRole.Heading, new() { Name = $"Non-conformance {number}", Level = 1 })).ToBeVisibleAsync();
        await visit.GoAsync($"/sites/{Demo}/non-conformances/{number}");
    }

    private static async Task ProposeAsync(Visit visit)
    {
        var form = visit.Page.GetByRole(AriaRole.Form, new() { Name = "Propose a disposition" });
        await form.GetByLabel("Designer's reference").FillAsync("D-7");
        await form.GetByLabel("Why").FillAsync("Neighbours stand as designed.");
        await form.GetByRole(AriaRole.Button, new() { Name = "Propose" }).ClickAsync();
        await Expect(visit.Page.Locator(".page-head")).ToContainTextAsync("proposed, waits for a decision");
    }

    /// <summary>The log is written beside the answer, so it may come a moment later; each look asks the server something.</summary>
    private async Task ShouldBeLoggedAsync(Visit visit, string words)
    {
        bool Logged() => Sites.ServerLog.Split('\n').Any(line => line.Contains("Refused: account", StringComparison.Ordinal) && line.Contains(words, StringComparison.Ordinal));
        for (var look = 0; look < 200 && !Logged(); look++) await visit.Context.APIRequest.GetAsync("/health/live");
        Logged().ShouldBeTrue($"no refusal with '{words}' in the log");
    }

    [GeneratedRegex(@"/non-conformances/\d+$")]
    private static partial Regex NumberedPage();
}
