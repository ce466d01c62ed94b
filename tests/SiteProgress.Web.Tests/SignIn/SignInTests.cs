using System.Net;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.DependencyInjection;
using Shouldly;
using SiteProgress.Jobs.Accounts;
using SiteProgress.Storage.Accounts;
using SiteProgress.Web.SignIn;
using Xunit;

namespace SiteProgress.Web.Tests.SignIn;

/// <summary>Signing in and out, and the pages by which passwords are set, over the real server and store.</summary>
public sealed class SignInTests(WebDatabase database) : IClassFixture<WebDatabase>, IAsyncLifetime
{
    private RunningWeb web = null!;

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private string Email { get; } = $"{Guid.NewGuid():N}@example.org";

    public async ValueTask InitializeAsync() => web = await RunningWeb.StartAsync(database, "--SiteProgress:SignInAttemptsPerMinute=1000");

    public ValueTask DisposeAsync() => web.DisposeAsync();

    [Fact]
    public async Task The_right_password_lets_in_and_leads_on_and_sign_out_ends_it()
    {
        await web.PersonAsync(Email);
        using HttpClient browser = web.Browser();
        (await GetAsync(browser, "/account")).StatusCode.ShouldBe(HttpStatusCode.Redirect);

        HttpResponseMessage answer = await RunningWeb.SendFormAsync(
            browser, "/sign-in?to=%2Faccount", "sign-in", ("Typed.Email", Email), ("Typed.Password", RunningWeb.Password));
        answer.StatusCode.ShouldBe(HttpStatusCode.Redirect);
        answer.Headers.Location!.ToString().ShouldEndWith("/account");
        answer.Headers.GetValues("Set-Cookie").ShouldContain(cookie => cookie.StartsWith("SiteProgress.SignIn=", StringComparison.Ordinal)
            && cookie.Contains("httponly", StringComparison.OrdinalIgnoreCase) && cookie.Contains("samesite=lax", StringComparison.OrdinalIgnoreCase));
        (await GetAsync(browser, "/account")).StatusCode.ShouldBe(HttpStatusCode.OK);

        (await GetAsync(browser, "/sign-out")).StatusCode.ShouldNotBe(HttpStatusCode.OK);
        (await browser.PostAsync(new Uri("/sign-out", UriKind.Relative), null, Cancellation)).StatusCode.ShouldBe(HttpStatusCode.BadRequest);
        (await GetAsync(browser, "/account")).StatusCode.ShouldBe(HttpStatusCode.OK);
        (await RunningWeb.SendFormAsync(browser, "/account", "/sign-out", "")).StatusCode.ShouldBe(HttpStatusCode.Redirect);
        (await GetAsync(browser, "/account")).StatusCode.ShouldBe(HttpStatusCode.Redirect);
    }

    [Fact]
    public async Task A_token_is_shown_once_and_can_be_revoked_on_the_page()
    {
        Guid person = await web.PersonAsync(Email);
        using HttpClient browser = web.Browser();
        await RunningWeb.SignInAsync(browser, Email);

        string made = await BodyAsync(await RunningWeb.SendFormAsync(browser, "/account", "make-token", ("Typed.Name", "barge <logger>")));
        made.ShouldContain("sp_");
        made.ShouldContain("barge &lt;logger&gt;");
        string later = await BodyAsync(await GetAsync(browser, "/account"));
        later.ShouldNotContain("sp_");

        string key = (await web.Services.GetRequiredService<PersonalTokens>().ListAsync(person, Cancellation)).Single().Key;
        (await BodyAsync(await RunningWeb.SendFormAsync(browser, "/account", "revoke-token", ("Revoking.Key", key)))).ShouldContain("revoked");
    }

    [Fact]
    public async Task A_changed_password_ends_other_sessions_and_not_this_one()
    {
        Guid person = await web.PersonAsync(Email);
        using HttpClient browser = web.Browser();
        await RunningWeb.SignInAsync(browser, Email);
        (string, string)[] typed =
            [("Typed.Present", RunningWeb.Password), ("Typed.Next", "five other words for this"), ("Typed.Again", "five other words for this")];
        string? before = await StampAsync();

        (await BodyAsync(await RunningWeb.SendFormAsync(browser, "/account", "change-password", typed))).ShouldContain("The password is changed.");

        (await web.Services.GetRequiredService<Sessions>().HoldsAsync(person, before, Cancellation)).ShouldBeFalse();
        (await web.Services.GetRequiredService<Sessions>().HoldsAsync(person, await StampAsync(), Cancellation)).ShouldBeTrue();
        (await GetAsync(browser, "/account")).StatusCode.ShouldBe(HttpStatusCode.OK);
    }

    [Fact]
    public async Task Unknown_address_wrong_password_and_locked_account_read_alike()
    {
        await web.PersonAsync(Email);
        using HttpClient browser = web.Browser();
        string unknown = await RefusalAsync(await RunningWeb.SignInAsync(browser, "nobody-" + Email));
        string wrong = await RefusalAsync(await RunningWeb.SignInAsync(browser, Email, "not the right password"));
        for (int attempt = 1; attempt < AccountServices.AttemptsBeforeLockOut; attempt++)
            await RunningWeb.SignInAsync(browser, Email, "not the right password");
        string locked = await RefusalAsync(await RunningWeb.SignInAsync(browser, Email));

        unknown.ShouldBe(WebUtility.HtmlEncode(SignInWithPassword.Refused));
        wrong.ShouldBe(unknown);
        locked.ShouldBe(unknown);
    }

    [Fact]
    public async Task Four_wrong_passwords_do_not_lock_and_the_right_one_starts_the_count_again()
    {
        await web.PersonAsync(Email);
        using HttpClient browser = web.Browser();
        for (int round = 0; round < 2; round++)
        {
            for (int attempt = 1; attempt < AccountServices.AttemptsBeforeLockOut; attempt++)
                (await RunningWeb.SignInAsync(browser, Email, "not the right password")).StatusCode.ShouldBe(HttpStatusCode.OK);
            (await RunningWeb.SignInAsync(browser, Email)).StatusCode.ShouldBe(HttpStatusCode.Redirect);
        }
    }

    [Fact]
    public async Task A_form_without_its_hidden_value_is_refused()
    {
        await web.PersonAsync(Email);
        using HttpClient browser = web.Browser();
        using FormUrlEncodedContent form = new(
        [
            KeyValuePair.Create("_handler", "sign-in"), KeyValuePair.Create("Typed.Email", Email), KeyValuePair.Create("Typed.Password", RunningWeb.Password),
        ]);
        HttpResponseMessage answer = await browser.PostAsync(new Uri("/sign-in", UriKind.Relative), form, Cancellation);
        answer.StatusCode.ShouldBe(HttpStatusCode.BadRequest);
    }

    [Fact]
    public async Task A_link_sets_the_password_on_its_page_once()
    {
        await web.PersonAsync(Email);
        string link = await LinkAsync();
        using HttpClient browser = web.Browser();
        string page = "/set-password?link=" + link;
        (string, string)[] typed = [("Typed.Password", "five other words for this"), ("Typed.Again", "five other words for this")];

        string done = await (await RunningWeb.SendFormAsync(browser, page, "set-password", typed)).Content.ReadAsStringAsync(Cancellation);
        done.ShouldContain("The password is set.");
        (await (await GetAsync(browser, page)).Content.ReadAsStringAsync(Cancellation)).ShouldContain("This link cannot be used");

        (await RunningWeb.SignInAsync(browser, Email)).StatusCode.ShouldBe(HttpStatusCode.OK);
        (await RunningWeb.SignInAsync(browser, Email, "five other words for this")).StatusCode.ShouldBe(HttpStatusCode.Redirect);
    }

    [Fact]
    public async Task The_first_administrators_page_is_for_this_machine_only()
    {
        string link;
        await using (AsyncServiceScope work = web.Services.CreateAsyncScope())
        {
            // Another test of this class may have made an account already; the page then says so whoever asks.
            link = await work.ServiceProvider.GetRequiredService<FirstAdministrator>().MakeLinkAsync() ?? "none";
        }

        using HttpClient handedOn = web.Browser();
        handedOn.DefaultRequestHeaders.Add("X-Forwarded-For", "203.0.113.7");
        (await handedOn.GetStringAsync(new Uri("/first-administrator?link=" + link, UriKind.Relative), Cancellation)).ShouldContain("This link cannot be used");
    }

    private async Task<string?> StampAsync()
    {
        await using AsyncServiceScope work = web.Services.CreateAsyncScope();
        return (await work.ServiceProvider.GetRequiredService<UserManager<Account>>().FindByEmailAsync(Email))!.SecurityStamp;
    }

    private static Task<string> BodyAsync(HttpResponseMessage answer) => answer.Content.ReadAsStringAsync(Cancellation);

    private async Task<string> LinkAsync()
    {
        await using AsyncServiceScope work = web.Services.CreateAsyncScope();
        return (await work.ServiceProvider.GetRequiredService<PasswordLinks>().MakeAsync(Email)).ShouldNotBeNull();
    }

    private static Task<HttpResponseMessage> GetAsync(HttpClient browser, string address) => browser.GetAsync(new Uri(address, UriKind.Relative), Cancellation);

    private static async Task<string> RefusalAsync(HttpResponseMessage answer)
    {
        string html = await answer.Content.ReadAsStringAsync(Cancellation);
        int from = html.IndexOf("role=\"alert\">", StringComparison.Ordinal) + "role=\"alert\">".Length;
        return html[from..html.IndexOf("</p>", from, StringComparison.Ordinal)];
    }
}
