using System.Net;
using System.Text;
using System.Text.Json;
using Shouldly;
using SiteProgress.Jobs.Access;
using Xunit;

namespace SiteProgress.Web.Tests.Today;

/// <summary>A running server with one site without records, a manager of it, a person without a role, and nobody.</summary>
public sealed class DayServer : IAsyncLifetime
{
    private readonly WebDatabase database = new();
    private RunningWeb? web;

    public string Site { get; } = "site-" + Guid.NewGuid().ToString("N")[..8];

    public HttpClient Manager { get; private set; } = null!;

    public HttpClient Stranger { get; private set; } = null!;

    public HttpClient Nobody { get; private set; } = null!;

    public async ValueTask InitializeAsync()
    {
        await database.InitializeAsync();
        web = await RunningWeb.StartAsync(database);
        await web.OpenSiteAsync(Site);
        await web.GrantAsync(Site, await web.PersonAsync("manager@example.org"), Role.ProjectManager);
        await web.PersonAsync("stranger@example.org");
        (Manager, Stranger, Nobody) = (web.Browser(), web.Browser(), web.Browser());
        await RunningWeb.SignInAsync(Manager, "manager@example.org");
        await RunningWeb.SignInAsync(Stranger, "stranger@example.org");
    }

    public async ValueTask DisposeAsync()
    {
        Manager.Dispose();
        Stranger.Dispose();
        Nobody.Dispose();
        if (web is not null) await web.DisposeAsync();
        await database.DisposeAsync();
    }
}

/// <summary>What programs read of the three pages, from the running server.</summary>
public sealed class DayAnswersTests(DayServer server) : IClassFixture<DayServer>
{
    private readonly HttpClient manager = server.Manager;
    private readonly HttpClient stranger = server.Stranger;
    private readonly HttpClient nobody = server.Nobody;
    private readonly string site = server.Site;

    public static TheoryData<string> Addresses =>
        ["today", "progress", "progress.csv", "deviations", "deviations.csv", "deviation-days.csv", "outstanding", "outstanding.csv"];

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Theory]
    [MemberData(nameof(Addresses))]
    public async Task Answers_are_for_those_with_a_role_on_the_site(string address)
    {
        (await StatusAsync(manager, address)).ShouldBe(HttpStatusCode.OK);
        (await StatusAsync(stranger, address)).ShouldBe(HttpStatusCode.NotFound);
        (await StatusAsync(nobody, address)).ShouldBe(HttpStatusCode.Unauthorized);
    }

    [Theory]
    [InlineData("today")]
    [InlineData("deviations")]
    [InlineData("outstanding")]
    public async Task Pages_of_a_site_without_records_answer_and_say_so(string page)
    {
        string html = await manager.GetStringAsync(new Uri($"/sites/{site}/{page}", UriKind.Relative), Cancellation);

        html.ShouldContain("<h1");
        html.ShouldNotContain("Exception");
        (await stranger.GetAsync(new Uri($"/sites/{site}/{page}", UriKind.Relative), Cancellation)).StatusCode.ShouldBe(HttpStatusCode.NotFound);
    }

    [Fact]
    public async Task Names_in_the_answer_say_their_unit_and_days_are_dates()
    {
        using JsonDocument today = JsonDocument.Parse(await manager.GetStringAsync(Address("today?day=2026-05-29"), Cancellation));
        using JsonDocument deviations = JsonDocument.Parse(await manager.GetStringAsync(Address("deviations?zone=A&judged=beyond&take=5"), Cancellation));

        today.RootElement.GetProperty("day").GetString().ShouldBe("2026-05-29");
        today.RootElement.GetProperty("checks")[0].GetProperty("barge").GetString().ShouldBe("Curlew");
        deviations.RootElement.GetProperty("piles").GetProperty("total").GetInt32().ShouldBe(0);
        deviations.RootElement.GetProperty("review").GetProperty("selection").GetProperty("zone").GetString().ShouldBe("A");
    }

    [Theory]
    [InlineData("today?day=yesterday", "day: 'yesterday' was not understood; expected a day as year-month-day, such as 2026-05-29.")]
    [InlineData("progress?from=29.05.2026", "from: '29.05.2026' was not understood")]
    [InlineData("progress.csv?to=2026-02-30", "to: '2026-02-30' was not understood")]
    [InlineData("deviations?judged=perhaps", "expected within, beyond, alert or not-judged")]
    [InlineData("deviations.csv?sort=remark", "expected one of radial")]
    [InlineData("outstanding?what=all", "expected gaps, rows, attempted, awaiting or not-attempted")]
    [InlineData("outstanding.csv?order=up", "expected asc or desc")]
    public async Task What_cannot_be_read_is_refused_and_named(string address, string detail)
    {
        using HttpResponseMessage answer = await manager.GetAsync(Address(address), Cancellation);

        answer.StatusCode.ShouldBe(HttpStatusCode.BadRequest);
        using JsonDocument problem = JsonDocument.Parse(await answer.Content.ReadAsStringAsync(Cancellation));
        problem.RootElement.GetProperty("detail").GetString()!.ShouldContain(detail);
    }

    [Theory]
    [InlineData("deviations?casing=left")]
    [InlineData("outstanding?take=many")]
    public async Task A_number_that_is_none_is_refused(string address) => (await StatusAsync(manager, address)).ShouldBe(HttpStatusCode.BadRequest);

    [Fact]
    public async Task A_page_asked_for_a_day_that_is_none_shows_the_latest()
    {
        (await manager.GetStringAsync(new Uri($"/sites/{site}/today?day=yesterday", UriKind.Relative), Cancellation)).ShouldContain("Today");
    }

    [Fact]
    public async Task Tables_come_as_files_with_units_in_their_heads()
    {
        using HttpResponseMessage answer = await manager.GetAsync(Address("deviations.csv"), Cancellation);

        answer.Content.Headers.ContentType!.MediaType.ShouldBe("text/csv");
        answer.Content.Headers.ContentDisposition!.FileName.ShouldBe($"{site}-deviations.csv");
        byte[] bytes = await answer.Content.ReadAsByteArrayAsync(Cancellation);
        bytes[..3].ShouldBe([0xEF, 0xBB, 0xBF]);
        Encoding.UTF8.GetString(bytes[3..]).ShouldStartWith("Pile No,Zone,Barge,Casing,Set-up,Working day,End (UTC),Attempts,dE [m],dN [m]");
    }

    private Uri Address(string address) => new($"/api/v1/sites/{site}/{address}", UriKind.Relative);

    private async Task<HttpStatusCode> StatusAsync(HttpClient browser, string address)
    {
        using HttpResponseMessage answer = await browser.GetAsync(Address(address), Cancellation);
        return answer.StatusCode;
    }
}
