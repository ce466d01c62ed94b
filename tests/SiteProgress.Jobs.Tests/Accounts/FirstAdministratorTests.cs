using Microsoft.Extensions.DependencyInjection;
using Shouldly;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Accounts;
using Xunit;

namespace SiteProgress.Jobs.Tests.Accounts;

/// <summary>The one way in to a store without accounts.</summary>
public sealed class FirstAdministratorTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    [Fact]
    public async Task The_link_makes_the_first_account_once_and_then_never_again()
    {
        SettableTime time = new();
        await using (OpenedStore owner = new(database.OwnerConnectionString, time)) await owner.OpenSiteAsync("first-site");
        await using OpenedStore store = new(database.WebConnectionString, time);
        using IServiceScope work = store.Work();
        FirstAdministrator first = work.ServiceProvider.GetRequiredService<FirstAdministrator>();

        string expired = (await first.MakeLinkAsync()).ShouldNotBeNull();
        time.Now += FirstAdministrator.Lasts;
        (await first.UseAsync(expired, "Someone", "first@example.org", "four words side by side")).Problem.ShouldBe(FirstAdministrator.NotUsable);

        string link = (await first.MakeLinkAsync()).ShouldNotBeNull();
        (await first.UseAsync(link, "Someone", "first@example.org", "short")).Problem.ShouldNotBeNull().ShouldContain("12 characters");
        (await first.WorksAsync(link)).ShouldBeTrue();
        Guid account = (await first.UseAsync(link, "Someone", "first@example.org", "four words side by side")).Account.ShouldNotBeNull();
        SitesOfPerson.Listed site = (await store.Get<SitesOfPerson>().ListAsync(account, TestContext.Current.CancellationToken)).ShouldHaveSingleItem();
        (site.Code, site.Role).ShouldBe(("first-site", Role.Administrator));

        (await first.UseAsync(link, "Someone", "second@example.org", "four words side by side")).Problem.ShouldBe(FirstAdministrator.NotUsable);
        (await first.MakeLinkAsync()).ShouldBeNull();
    }
}
