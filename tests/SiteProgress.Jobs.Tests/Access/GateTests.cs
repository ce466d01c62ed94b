using Shouldly;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Accounts;
using SiteProgress.Jobs.Sites;
using Xunit;

namespace SiteProgress.Jobs.Tests.Access;

/// <summary>Who comes through the gate.</summary>
public sealed class GateTests(JobsDatabase database) : IClassFixture<JobsDatabase>, IAsyncLifetime
{
    private readonly OpenedStore store = new(database.OwnerConnectionString);

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private string Code { get; } = "site-" + Guid.NewGuid().ToString("N")[..8];

    public async ValueTask InitializeAsync() => await store.OpenSiteAsync(Code);

    public ValueTask DisposeAsync() => store.DisposeAsync();

    [Theory]
    [InlineData(Role.OwnersRepresentative)]
    [InlineData(Role.ProjectManager)]
    [InlineData(Role.Surveyor)]
    [InlineData(Role.Administrator)]
    public async Task A_person_enters_with_the_role_the_records_give(Role role)
    {
        Guid person = await store.PersonAsync($"{role}-{Code}@example.org", role, Code);
        Permit permit = (await store.Get<Gate>().EnterAsync(person, Code, Cancellation)).ShouldNotBeNull();
        permit.Role.ShouldBe(role);
        permit.Account.ShouldBe(person);
        permit.SiteCode.ShouldBe(Code);
    }

    [Fact]
    public async Task A_site_without_a_role_and_a_site_that_is_not_there_answer_alike()
    {
        Guid person = await store.PersonAsync($"nobody-{Code}@example.org");
        (await store.Get<Gate>().EnterAsync(person, Code, Cancellation)).ShouldBeNull();
        (await store.Get<Gate>().EnterAsync(person, "no-such-site", Cancellation)).ShouldBeNull();
        (await store.Get<SitesOfPerson>().ListAsync(person, Cancellation)).ShouldBeEmpty();
    }

    [Fact]
    public async Task A_withdrawn_role_opens_nothing_any_more()
    {
        Guid administrator = await store.PersonAsync($"admin-{Code}@example.org", Role.Administrator, Code);
        Guid surveyor = await store.PersonAsync($"surveyor-{Code}@example.org", Role.Surveyor, Code);
        Gate gate = store.Get<Gate>();
        Permit permit = (await gate.EnterAsync(administrator, Code, Cancellation)).ShouldNotBeNull();

        (await store.Get<GrantRole>().WithdrawAsync(permit, surveyor, Cancellation)).ShouldBeNull();

        (await gate.EnterAsync(surveyor, Code, Cancellation)).ShouldBeNull();
    }

    [Fact]
    public async Task An_administrator_grants_by_address_and_an_unknown_address_is_told()
    {
        Guid administrator = await store.PersonAsync($"admin-{Code}@example.org", Role.Administrator, Code);
        Guid person = await store.PersonAsync($"new-{Code}@example.org");
        Permit permit = (await store.Get<Gate>().EnterAsync(administrator, Code, Cancellation)).ShouldNotBeNull();
        People people = store.Get<People>();

        (await people.GrantAsync(permit, $"nobody-at-all-{Code}@example.org", Role.Surveyor, Cancellation))
            .ShouldNotBeNull().ShouldContain("There is no open account");
        (await people.GrantAsync(permit, $" New-{Code}@Example.org ", Role.Surveyor, Cancellation)).ShouldBeNull();

        (await people.ListAsync(permit, Cancellation)).Single(one => one.Account == person).Role.ShouldBe(Role.Surveyor);
        (await store.Get<SitesOfPerson>().ListAsync(person, Cancellation)).Single().Code.ShouldBe(Code);
    }

    [Fact]
    public async Task Addresses_of_people_are_for_administrators_alone()
    {
        await store.PersonAsync($"admin-{Code}@example.org", Role.Administrator, Code);
        Guid surveyor = await store.PersonAsync($"surveyor-{Code}@example.org", Role.Surveyor, Code);
        Permit permit = (await store.Get<Gate>().EnterAsync(surveyor, Code, Cancellation)).ShouldNotBeNull();
        (await store.Get<People>().ListAsync(permit, Cancellation)).ShouldAllBe(person => person.Email == null);
    }
}
