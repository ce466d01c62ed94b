using System.Security.Claims;
using Bunit;
using Bunit.TestDoubles;
using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using Shouldly;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Changes;
using SiteProgress.Storage;
using SiteProgress.Web.Shell;
using Xunit;

namespace SiteProgress.Web.Tests.Shell;

/// <summary>An open page whose person's role changes, over the real gate and store.</summary>
public sealed class SitePageTests(WebDatabase database) : IClassFixture<WebDatabase>, IAsyncLifetime
{
    private readonly BunitContext context = new();
    private readonly ManualTime time = new();
    private readonly NpgsqlDataSource owner = StoreOptions.DataSource(database.OwnerConnectionString);
    private readonly Guid person = Guid.NewGuid();
    private readonly string code = "site-" + Guid.NewGuid().ToString("N")[..8];
    private BunitAuthorizationContext signedIn = null!;
    private int site;

    private static CancellationToken Cancellation => Xunit.TestContext.Current.CancellationToken;

    private SiteChanges Changes => context.Services.GetRequiredService<SiteChanges>();

    public async ValueTask InitializeAsync()
    {
        // How long a failing assertion is let wait; none that passes waits for time.
        BunitContext.DefaultWaitTimeout = TimeSpan.FromSeconds(30);
        site = (int)(await ScalarAsync("insert into record.site (code, opened_at) values ($1, now()) returning site", code))!;
        context.Services.AddSingleton(StoreOptions.DataSource(database.WebConnectionString));
        context.Services.AddSingleton<Gate>();
        context.Services.AddSingleton<SiteChanges>();
        context.Services.AddSingleton<TimeProvider>(time);
        signedIn = context.AddAuthorization();
        signedIn.SetAuthorized("someone").SetClaims(new Claim(ClaimTypes.NameIdentifier, person.ToString()));
        context.SetRendererInfo(new RendererInfo("Server", isInteractive: true));
        context.JSInterop.SetupModule("./shell.js").SetupVoid("markLive").SetVoidResult();
    }

    public async ValueTask DisposeAsync()
    {
        await context.DisposeComponentsAsync();
        await context.DisposeAsync();
        await owner.DisposeAsync();
    }

    [Fact]
    public async Task An_open_page_reads_again_at_each_notice_of_its_site()
    {
        await GrantAsync(Role.Surveyor);
        IRenderedComponent<CountingPage> page = Open();
        Changes.Pass(new RecordNotice(site + 1, 1));
        Changes.Pass(new RecordNotice(site, 2));
        await page.WaitForAssertionAsync(() => page.Find("output").TextContent.ShouldStartWith("2 readings"));
    }

    [Fact]
    public async Task After_the_role_is_withdrawn_the_next_action_is_not_done()
    {
        await GrantAsync(Role.Surveyor);
        IRenderedComponent<CountingPage> page = Open();
        page.Find("button").Click();
        await page.WaitForAssertionAsync(() => page.Find("output").TextContent.ShouldEndWith("1 actions"));

        await WithdrawAsync();
        page.Find("button").Click();

        await page.WaitForAssertionAsync(() => page.Find("h1").TextContent.ShouldBe("Nothing here"));
        page.Instance.Actions.ShouldBe(1);
        Changes.Count.ShouldBe(0);
    }

    [Fact]
    public async Task After_the_role_is_withdrawn_a_notice_shows_nothing_new_and_the_page_listens_no_more()
    {
        await GrantAsync(Role.ProjectManager);
        IRenderedComponent<CountingPage> page = Open();
        await WithdrawAsync();
        Changes.Pass(new RecordNotice(site, 7));
        await page.WaitForAssertionAsync(() => page.Find("h1").TextContent.ShouldBe("Nothing here"));
        page.Instance.Readings.ShouldBe(1);
        Changes.Count.ShouldBe(0);
    }

    [Fact]
    public async Task Without_any_notice_the_page_finds_out_by_itself_within_five_seconds()
    {
        SitePage.RoleLook.ShouldBeLessThan(TimeSpan.FromSeconds(5));
        await GrantAsync(Role.ProjectManager);
        IRenderedComponent<CountingPage> page = Open();
        await WithdrawAsync();
        await time.TimerMade.WaitAsync(Cancellation);
        time.Advance(SitePage.RoleLook);
        await page.WaitForAssertionAsync(() => page.Find("h1").TextContent.ShouldBe("Nothing here"));
    }

    [Fact]
    public async Task An_action_the_role_may_not_take_is_told_in_a_sentence_and_the_page_stays()
    {
        await GrantAsync(Role.OwnersRepresentative);
        IRenderedComponent<CountingPage> page = Open();
        page.Find("button").Click();
        await page.WaitForAssertionAsync(() => page.Find(".refusal").TextContent.ShouldBe(
            "As owner's representative of this site you may not bring records in or withdraw batches."));
        page.FindAll("#typed").Count.ShouldBe(1);
        page.Instance.Actions.ShouldBe(0);
    }

    [Fact]
    public void Without_a_role_the_page_is_the_one_of_a_site_that_is_not_there()
    {
        string without = Open().Markup;
        string none = Open("no-such-site").Markup;
        without.ShouldBe(none);
        without.ShouldContain("Nothing here");
    }

    [Fact]
    public async Task A_page_that_is_left_listens_no_more()
    {
        await GrantAsync(Role.Surveyor);
        Open();
        Changes.Count.ShouldBe(1);
        await context.DisposeComponentsAsync();
        Changes.Count.ShouldBe(0);
    }

    [Fact]
    public async Task When_the_session_ends_the_page_says_so()
    {
        await GrantAsync(Role.Surveyor);
        IRenderedComponent<CountingPage> page = Open();
        signedIn.SetNotAuthorized();
        await page.WaitForAssertionAsync(() => page.Find("h1").TextContent.ShouldBe("Signed out"));
        page.Instance.Actions.ShouldBe(0);
    }

    private IRenderedComponent<CountingPage> Open(string? other = null)
    {
        IRenderedComponent<CountingPage> page = context.Render<CountingPage>(parameters => parameters.Add(p => p.Site, other ?? code));
        page.WaitForAssertion(() => page.Find("h1"));
        return page;
    }

    private Task GrantAsync(Role role) => ScalarAsync(
        "insert into derived.site_role (site, account, role, digest) values ($1, $2, $3, gen_random_uuid())", site, person, (short)role);

    private Task WithdrawAsync() => ScalarAsync("delete from derived.site_role where site = $1 and account = $2", site, person);

    private async Task<object?> ScalarAsync(string statement, params object[] values)
    {
        await using NpgsqlCommand command = owner.CreateCommand(statement);
        foreach (object value in values) command.Parameters.AddWithValue(value);
        return await command.ExecuteScalarAsync(Cancellation);
    }
}
