using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using Shouldly;
using SiteProgress.Jobs.Accounts;
using SiteProgress.Storage.Accounts;
using Xunit;

namespace SiteProgress.Jobs.Tests.Accounts;

/// <summary>Accounts, the links that set their passwords, and their tokens.</summary>
public sealed class AccountTests(JobsDatabase database) : IClassFixture<JobsDatabase>, IAsyncDisposable
{
    private const string Password = "four words side by side";
    private readonly SettableTime time = new();
    private readonly OpenedStore store = new(database.WebConnectionString, null);
    private readonly string email = $"{Guid.NewGuid():N}@example.org";

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    public ValueTask DisposeAsync() => store.DisposeAsync();

    [Theory]
    [InlineData("", "someone@example.org", "A name is needed")]
    [InlineData("Someone", "not an address", "is not an e-mail address")]
    [InlineData("Someone", "Someone <someone@example.org>", "is not an e-mail address")]
    public async Task An_account_needs_a_name_and_an_address(string name, string address, string told)
    {
        using IServiceScope work = store.Work();
        AccountAnswer answer = await work.ServiceProvider.GetRequiredService<CreateAccount>().RunAsync(name, address, Password);
        answer.Account.ShouldBeNull();
        answer.Problem.ShouldNotBeNull().ShouldContain(told);
    }

    [Fact]
    public async Task Two_accounts_cannot_have_one_address_whatever_its_capitals()
    {
        await store.PersonAsync(email);
        using IServiceScope work = store.Work();
        AccountAnswer second = await work.ServiceProvider.GetRequiredService<CreateAccount>().RunAsync("Someone", email.ToUpperInvariant(), Password);
        second.Problem.ShouldNotBeNull().ShouldContain("already");
    }

    [Fact]
    public async Task A_link_sets_a_password_once_and_ends_older_sessions()
    {
        await using OpenedStore timed = new(database.WebConnectionString, time);
        Guid person = await timed.PersonAsync(email);
        string? stamp = await StampAsync(timed);
        (await timed.Get<Sessions>().HoldsAsync(person, stamp, Cancellation)).ShouldBeTrue();
        string link = await LinkAsync(timed);

        AccountAnswer first = await UseAsync(timed, link, Password);
        AccountAnswer second = await UseAsync(timed, link, "another four words here");

        first.Account.ShouldBe(person);
        second.Problem.ShouldBe(PasswordLinks.NotUsable);
        (await IsPasswordAsync(timed, Password)).ShouldBeTrue();
        (await timed.Get<Sessions>().HoldsAsync(person, stamp, Cancellation)).ShouldBeFalse();
    }

    [Fact]
    public async Task A_link_does_not_work_after_two_days()
    {
        await using OpenedStore timed = new(database.WebConnectionString, time);
        await timed.PersonAsync(email);
        string link = await LinkAsync(timed);
        time.Now += PasswordLinks.Lasts - TimeSpan.FromSeconds(1);
        using IServiceScope work = timed.Work();
        (await work.ServiceProvider.GetRequiredService<PasswordLinks>().WorksAsync(link)).ShouldBeTrue();

        time.Now += TimeSpan.FromSeconds(1);

        (await work.ServiceProvider.GetRequiredService<PasswordLinks>().WorksAsync(link)).ShouldBeFalse();
        (await UseAsync(timed, link, Password)).Problem.ShouldBe(PasswordLinks.NotUsable);
    }

    [Fact]
    public async Task A_newer_link_replaces_an_older_one()
    {
        await store.PersonAsync(email);
        string older = await LinkAsync(store);
        string newer = await LinkAsync(store);
        (await UseAsync(store, older, Password)).Problem.ShouldBe(PasswordLinks.NotUsable);
        (await UseAsync(store, newer, Password)).Problem.ShouldBeNull();
    }

    [Fact]
    public async Task A_short_password_is_refused_and_leaves_the_link_unused()
    {
        await store.PersonAsync(email);
        string link = await LinkAsync(store);
        (await UseAsync(store, link, "elevenchars")).Problem.ShouldNotBeNull().ShouldContain("at least 12 characters");
        (await UseAsync(store, link, "twelve chars")).Problem.ShouldBeNull();
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("short")]
    [InlineData("AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA")]
    [InlineData("AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA")]
    public async Task A_made_up_link_is_none(string? link)
        => (await UseAsync(store, link, Password)).Problem.ShouldBe(PasswordLinks.NotUsable);

    [Fact]
    public async Task The_store_keeps_neither_link_nor_token()
    {
        Guid person = await store.PersonAsync(email);
        string link = await LinkAsync(store);
        string token = await store.Get<PersonalTokens>().MakeAsync(person, "logger", Cancellation);
        await using NpgsqlConnection connection = new(database.OwnerConnectionString);
        await connection.OpenAsync(Cancellation);
        await using NpgsqlCommand command = new(
            "select string_agg(t::text, ' ') from (select l::text t from account.one_use_link l union all select p::text from account.personal_token p) x", connection);
        string kept = (string)(await command.ExecuteScalarAsync(Cancellation))!;
        kept.ShouldNotContain(link);
        kept.ShouldNotContain(token[3..]);
    }

    [Fact]
    public async Task A_token_stands_for_its_person_until_it_is_revoked()
    {
        Guid person = await store.PersonAsync(email);
        Guid other = await store.PersonAsync("other-" + email);
        PersonalTokens tokens = store.Get<PersonalTokens>();
        string token = await tokens.MakeAsync(person, "spreadsheet", Cancellation);
        (await tokens.WhoseAsync(token, Cancellation)).ShouldBe(person);
        PersonalTokens.Listed listed = (await tokens.ListAsync(person, Cancellation)).Single();
        listed.LastUsedDay.ShouldNotBeNull();

        (await tokens.RevokeAsync(other, listed.Key, Cancellation)).ShouldBeFalse();
        (await tokens.WhoseAsync(token, Cancellation)).ShouldBe(person);
        (await tokens.RevokeAsync(person, listed.Key, Cancellation)).ShouldBeTrue();

        (await tokens.WhoseAsync(token, Cancellation)).ShouldBeNull();
        (await tokens.ListAsync(person, Cancellation)).Single().Revoked.ShouldNotBeNull();
    }

    [Fact]
    public async Task A_closed_account_has_no_session_no_token_and_gets_no_link()
    {
        Guid person = await store.PersonAsync(email);
        string token = await store.Get<PersonalTokens>().MakeAsync(person, "logger", Cancellation);
        string? stamp = await StampAsync(store);
        using (IServiceScope work = store.Work())
            (await work.ServiceProvider.GetRequiredService<CloseAccount>().RunAsync(email)).ShouldBeTrue();

        (await store.Get<Sessions>().HoldsAsync(person, stamp, Cancellation)).ShouldBeFalse();
        (await store.Get<PersonalTokens>().WhoseAsync(token, Cancellation)).ShouldBeNull();
        using IServiceScope again = store.Work();
        (await again.ServiceProvider.GetRequiredService<PasswordLinks>().MakeAsync(email)).ShouldBeNull();
    }

    private async Task<string> LinkAsync(OpenedStore at)
    {
        using IServiceScope work = at.Work();
        return (await work.ServiceProvider.GetRequiredService<PasswordLinks>().MakeAsync(email)).ShouldNotBeNull();
    }

    private static async Task<AccountAnswer> UseAsync(OpenedStore at, string? link, string password)
    {
        using IServiceScope work = at.Work();
        return await work.ServiceProvider.GetRequiredService<PasswordLinks>().UseAsync(link, password);
    }

    private async Task<string?> StampAsync(OpenedStore at)
    {
        using IServiceScope work = at.Work();
        return (await work.ServiceProvider.GetRequiredService<UserManager<Account>>().FindByEmailAsync(email))!.SecurityStamp;
    }

    private async Task<bool> IsPasswordAsync(OpenedStore at, string password)
    {
        using IServiceScope work = at.Work();
        UserManager<Account> accounts = work.ServiceProvider.GetRequiredService<UserManager<Account>>();
        return await accounts.CheckPasswordAsync((await accounts.FindByEmailAsync(email))!, password);
    }
}
