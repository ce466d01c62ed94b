using Microsoft.Extensions.DependencyInjection;
using Shouldly;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Accounts;
using Xunit;

namespace SiteProgress.Jobs.Tests.Accounts;

/// <summary>An administrator brings a person to the site who has no account yet.</summary>
public sealed class InvitePersonTests(JobsDatabase database) : IClassFixture<JobsDatabase>, IAsyncLifetime
{
    private readonly OpenedStore store = new(database.OwnerConnectionString);
    private readonly string site = $"invite-{Guid.NewGuid():N}"[..20];
    private readonly string email = $"{Guid.NewGuid():N}@example.org";

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync() => await store.OpenSiteAsync(site);

    public ValueTask DisposeAsync() => store.DisposeAsync();

    [Fact]
    public async Task The_invited_person_sets_a_password_by_the_link_and_has_the_role_on_this_site()
    {
        Invitation invited = await InviteAsync("Someone Invented", email, Role.OwnersRepresentative);

        invited.Problem.ShouldBeNull();
        using IServiceScope work = store.Work();
        AccountAnswer set = await work.ServiceProvider.GetRequiredService<PasswordLinks>().UseAsync(invited.Secret, "four words side by side");
        Guid account = set.Account.ShouldNotBeNull();
        Permit permit = (await store.Get<Gate>().EnterAsync(account, site, Cancellation)).ShouldNotBeNull();
        permit.Role.ShouldBe(Role.OwnersRepresentative);
    }

    [Fact]
    public async Task Whoever_has_an_account_gets_no_link_and_keeps_their_password()
    {
        await store.PersonAsync(email);

        Invitation invited = await InviteAsync("Someone Else", email, Role.Surveyor);

        invited.Secret.ShouldBeNull();
        invited.Problem.ShouldNotBeNull().ShouldContain("already");
    }

    [Theory]
    [InlineData("", "Someone without a name")]
    [InlineData("Someone", "nobody at nowhere")]
    public async Task A_wrong_name_or_address_is_said_and_makes_nothing(string name, string address)
        => (await InviteAsync(name, address, Role.Surveyor)).Problem.ShouldNotBeNull();

    private async Task<Invitation> InviteAsync(string name, string address, Role role)
    {
        Guid administrator = await store.PersonAsync($"admin-{Guid.NewGuid():N}@example.org", Role.Administrator, site);
        Permit permit = (await store.Get<Gate>().EnterAsync(administrator, site, Cancellation)).ShouldNotBeNull();
        return await store.Get<InvitePerson>().RunAsync(permit, name, address, role, Cancellation);
    }
}
