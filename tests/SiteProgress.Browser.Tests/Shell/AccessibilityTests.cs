using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using Shouldly;
using SiteProgress.Browser.Tests.MainJob;
using Xunit;

namespace SiteProgress.Browser.Tests.Shell;

/// <summary>What axe finds on the pages of frame, sign-in and people, in the light and the dark.</summary>
[Collection(ServedSites.Collection)]
public sealed class AccessibilityTests(ServedSites sites)
{
    private static readonly AxeRunOptions Rules = new()
    {
        RunOnly = new RunOnlyOptions { Type = "tag", Values = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] },
    };

    [Theory]
    [InlineData("/sign-in", false, ColorScheme.Light)]
    [InlineData("/sign-in", false, ColorScheme.Dark)]
    [InlineData("/sites/sandlark/people", true, ColorScheme.Light)]
    [InlineData("/sites/sandlark/people", true, ColorScheme.Dark)]
    [InlineData("/account", true, ColorScheme.Light)]
    [InlineData("/account", true, ColorScheme.Dark)]
    [InlineData("/no/such/page", true, ColorScheme.Light)]
    public async Task Axe_finds_nothing(string address, bool signedIn, ColorScheme scheme)
    {
        await using IBrowserContext context = await sites.Browser.NewContextAsync(new()
        {
            BaseURL = sites.Address.ToString(),
            ColorScheme = scheme,
            StorageState = signedIn ? await sites.SessionOfAsync(Person.Administrator) : null,
            // Axe brings a style sheet of its own into the page, which the policy would refuse.
            BypassCSP = true,
        });
        IPage page = await context.NewPageAsync();
        await page.GotoAsync(address);
        AxeResult found = await page.RunAxe(Rules);
        found.Violations.Select(violation => $"{violation.Id}: {violation.Help} at {string.Join(", ", violation.Nodes.Select(node => node.Html))}").ShouldBeEmpty();
        found.Passes.ShouldNotBeEmpty();
    }
}
