using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using Shouldly;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Piles;
using Xunit;

namespace SiteProgress.Jobs.Tests.Piles;

public sealed class ListPilesTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    private static readonly CancellationToken Stop = CancellationToken.None;

    [Fact]
    public async Task A_filter_by_state_leaves_the_piles_of_that_state_and_counts_all_of_them()
    {
        await using TestSite site = await PileJobs.FilledAsync(database, 8, 3);
        PileFilter installed = new() { States = [PileState.Installed] };

        ListPiles.Page page = await PageAsync(site, installed);
        ListPiles.Choices choices = (await Job(site).ChoicesAsync(await site.PermitAsync(Role.ProjectManager), installed, Stop))!;

        page.Total.ShouldBe(3);
        page.Piles.Select(pile => pile.Number).ShouldBe(["A-0001", "A-0002", "A-0003"]);
        choices.Total.ShouldBe(3);
        choices.ByState[PileState.Outstanding].ShouldBe(5);
        choices.Days.ShouldBe([new LocalDate(2026, 3, 10)]);
    }

    [Theory]
    [InlineData("0002", 1)]
    [InlineData("a-000", 9)]
    [InlineData("%", 0)]
    [InlineData("_", 0)]
    [InlineData("'; drop table derived.pile; --", 0)]
    public async Task A_part_of_the_number_is_looked_for_as_it_stands_in_any_case(string part, int found)
    {
        await using TestSite site = await PileJobs.FilledAsync(database, 12, 0);

        (await PageAsync(site, new PileFilter { Number = part })).Total.ShouldBe(found);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Piles_without_the_number_asked_for_come_last_either_way(bool descending)
    {
        await using TestSite site = await PileJobs.FilledAsync(database, 4, 2);
        Permit permit = await site.PermitAsync(Role.Surveyor);

        foreach (PileOrder order in Enum.GetValues<PileOrder>().Where(order => order >= PileOrder.Built))
        {
            ListPiles.Page page = await Job(site).PageAsync(permit, PileFilter.All, order, descending, 0, 10, Stop);

            page.Piles.Take(2).ShouldAllBe(pile => pile.DeviationRadialMetres != null, order.ToString());
            page.Piles.Skip(2).ShouldAllBe(pile => pile.DeviationRadialMetres == null, order.ToString());
        }
    }

    [Fact]
    public async Task A_piece_of_the_list_follows_on_the_piece_before()
    {
        await using TestSite site = await PileJobs.FilledAsync(database, 25, 0);
        Permit permit = await site.PermitAsync(Role.Surveyor);

        IReadOnlyList<PileLine> first = await Job(site).LinesAsync(permit, PileFilter.All, PileOrder.Number, false, 0, 10, Stop);
        IReadOnlyList<PileLine> last = await Job(site).LinesAsync(permit, PileFilter.All, PileOrder.Number, false, 20, 10, Stop);

        first.Select(pile => pile.Number).ShouldBe(Enumerable.Range(0, 10).Select(TestSite.Number));
        last.Select(pile => pile.Number).ShouldBe(Enumerable.Range(20, 5).Select(TestSite.Number));
    }

    [Fact]
    public async Task The_whole_list_is_the_filtered_list_and_nothing_of_another_site()
    {
        await using TestSite other = await PileJobs.FilledAsync(database, 5, 5);
        await using TestSite site = await PileJobs.FilledAsync(database, 6, 2);
        List<string> numbers = [];

        IAsyncEnumerable<PileLine> all = await Job(site).AllAsync(
            await site.PermitAsync(Role.OwnersRepresentative), new PileFilter { Barges = ["Tern"] }, PileOrder.Number, true, Stop);
        await foreach (PileLine line in all) numbers.Add(line.Number);

        numbers.ShouldBe(["A-0002", "A-0001"]);
    }

    [Fact]
    public async Task Installations_that_wait_for_a_decision_can_be_listed()
    {
        await using TestSite site = await PileJobs.FilledAsync(database, 2, 4);

        ListInstallations.Page waiting = await site.Services.GetRequiredService<ListInstallations>().RunAsync(
            await site.PermitAsync(Role.Surveyor), new ListInstallations.Filter { Show = ListInstallations.Which.Waiting }, 0, 10, Stop);

        waiting.Total.ShouldBe(2);
        waiting.Installations.Select(line => line.RecordedNumber).ShouldBe(["A-0003", "A-0004"]);
        waiting.Installations.ShouldAllBe(line => line.Adopted == null && line.WaitsForDecision);
    }

    private static ListPiles Job(TestSite site) => site.Services.GetRequiredService<ListPiles>();

    private static async Task<ListPiles.Page> PageAsync(TestSite site, PileFilter filter)
        => await Job(site).PageAsync(await site.PermitAsync(Role.Administrator), filter, PileOrder.Number, false, 0, 100, Stop);
}
