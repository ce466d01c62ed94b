using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using Shouldly;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace SiteProgress.Browser.Tests.MainJob;

/// <summary>What holds for every page: accessible, no wider than a phone, to be worked without a mouse, light.</summary>
[Collection(ServedSites.Collection)]
public sealed class EveryPageTests(ServedSites sites) : BrowserTest(sites)
{
    private static readonly AxeRunOptions Rules = new()
    {
        RunOnly = RunOnlyOptions.Tags("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"),
        ResultTypes = [ResultType.Violations],
    };

    [Theory]
    [InlineData(Desk)]
    [InlineData(Phone)]
    public async Task Nothing_is_found_by_axe_and_nothing_scrolls_sideways(int width)
    {
        var visit = await VisitAsync(Person.Surveyor, width, withoutPolicy: true);
        var found = new List<string>();
        foreach (var page in await SiteAddresses.PagesAsync(visit))
        {
            await OpenAsync(visit, page);
            var result = await visit.Page.RunAxe(Rules);
            found.AddRange(result.Violations.Select(one => $"{page}: {one.Id} ({one.Help}) at {string.Join(" | ", one.Nodes.Take(3).Select(node => node.Html))}"));
            var tooWide = await visit.Page.EvaluateAsync<int>("document.documentElement.scrollWidth - document.documentElement.clientWidth");
            if (tooWide > 0) found.Add($"{page}: {tooWide} px wider than {width}");
        }

        found.ShouldBeEmpty(string.Join('\n', found));
    }

    [Fact]
    public async Task By_keyboard_a_person_skips_to_the_content_and_every_stop_on_the_way_shows_its_focus()
    {
        var visit = await VisitAsync(Person.Surveyor);
        var found = new List<string>();
        foreach (var page in await SiteAddresses.PagesAsync(visit))
        {
            await OpenAsync(visit, page);
            if (await visit.Page.Locator("nav.ways").CountAsync() > 0) found.AddRange((await SkipAsync(visit)).Select(problem => $"{page}: {problem}"));
            found.AddRange((await UnseenStopsAsync(visit)).Select(stop => $"{page}: no focus is seen at {stop}"));
        }

        found.ShouldBeEmpty(string.Join('\n', found));
    }

    [Fact]
    public async Task The_first_load_of_today_is_under_two_hundred_kilobytes()
    {
        var visit = await VisitAsync(Person.Manager);
        var requests = new List<IRequest>();
        long overSocket = 0;
        visit.Context.RequestFinished += (_, request) => { lock (requests) requests.Add(request); };
        visit.Page.WebSocket += (_, socket) =>
        {
            socket.FrameReceived += (_, frame) => Interlocked.Add(ref overSocket, frame.Binary?.Length ?? frame.Text?.Length ?? 0);
        };
        await visit.GoAsync($"/sites/{ServedSites.Demo}/today");
        long transferred = Interlocked.Read(ref overSocket);
        foreach (var request in requests.ToArray())
        {
            var sizes = await request.SizesAsync();
            transferred += sizes.ResponseBodySize + sizes.ResponseHeadersSize;
        }

        requests.Count.ShouldBeGreaterThan(3);
        transferred.ShouldBeInRange(10_000, 200_000);
    }

    /// <summary>Opens a page and waits for its controls, unless it is one of those that do without a live link.</summary>
    private static async Task OpenAsync(Visit visit, string page)
    {
        var answer = await visit.Page.GotoAsync(page);
        await Expect(visit.Page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToBeVisibleAsync();
        // What the server sends names its live parts; once they are up, the page no longer does.
        if ((await answer!.TextAsync()).Contains("\"type\":\"server\"", StringComparison.Ordinal)) await visit.LiveAsync();
        if (page.EndsWith("/map", StringComparison.Ordinal)) await visit.Page.Locator("[data-map=ready]").WaitForAsync();
    }

    /// <summary>Takes the skip link past search box and ways into the content.</summary>
    private static async Task<List<string>> SkipAsync(Visit visit)
    {
        var problems = new List<string>();
        var first = await visit.Page.EvaluateAsync<string>("document.querySelector('a[href], button, input, select, textarea, summary, [tabindex=\"0\"]').textContent.trim()");
        if (first != "To the content") problems.Add($"the first stop is '{first}'");
        var skip = visit.Page.GetByRole(AriaRole.Link, new() { Name = "To the content" });
        await skip.FocusAsync();
        await Expect(skip).ToBeInViewportAsync();
        await visit.Page.Keyboard.PressAsync("Enter");
        await visit.Page.Keyboard.PressAsync("Tab");
        // A page without any control in its content has nothing to stop at there.
        if (!await visit.Page.EvaluateAsync<bool>("!document.querySelector('main :is(a[href], button, input, select, summary, [tabindex=\"0\"])') || !!document.activeElement.closest('main')"))
            problems.Add("the skip link does not lead into the content");
        return problems;
    }

    /// <summary>Goes on by Tab through the first stops and tells those whose focus changes nothing that can be seen.</summary>
    private static async Task<List<string>> UnseenStopsAsync(Visit visit)
    {
        var unseen = new List<string>();
        for (var stop = 0; stop < 25; stop++)
        {
            await visit.Page.Keyboard.PressAsync("Tab");
            var told = await visit.Page.EvaluateAsync<string?>("""
                () => {
                  const at = document.activeElement;
                  if (!at || at === document.body) return null;
                  const seen = element => { const s = getComputedStyle(element); return (s.outlineStyle !== 'none' && parseFloat(s.outlineWidth) > 0) || s.boxShadow !== 'none'; };
                  // The parts inside a field for dates are stops of their own, and the browser marks them itself.
                  return seen(at) || at.matches('input[type=date], input[type=datetime-local]') ? null : at.outerHTML.slice(0, 120);
                }
                """);
            if (told is not null) unseen.Add(told);
        }

        return unseen;
    }
}
