using Microsoft.Extensions.DependencyInjection;
using Shouldly;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Outstanding;
using SiteProgress.Jobs.Tests.Demo;
using Xunit;

namespace SiteProgress.Jobs.Tests.Outstanding;

/// <summary>What is left of the demo against the raw files and its truth file.</summary>
[Collection(DemoCollection.Name)]
public sealed class ReadOutstandingTests(DemoSite demo)
{
    private static readonly string[] Missed = ["A-0518", "A-1175", "A-1665"];

    [Theory]
    [InlineData("A", 2160)]
    [InlineData("B", 2016)]
    [InlineData("C", 1845)]
    public async Task What_is_left_in_a_zone_is_what_no_raw_record_stands_for(string zone, int planned)
    {
        HashSet<string> waiting = [.. RawFiles.RecordsOf("wrong-frame"), .. RawFiles.RecordsOf("swapped-number")];
        int standing = RawFiles.Built.Where(row => row.Zone == zone && row.Stands && !waiting.Contains(row.Record)).Select(row => row.Pile).Distinct().Count();

        ZoneLeft left = (await ReadAsync()).Zones.Single(one => one.Zone == zone);

        left.PlannedPiles.ShouldBe(planned);
        left.LeftPiles.ShouldBe(planned - standing);
    }

    [Fact]
    public async Task Metres_left_are_design_lengths_and_least_lengths_where_there_is_no_tip_level()
    {
        OutstandingView left = await ReadAsync();

        left.Zones.Single(one => one.Zone == "A").LeftMetres.ShouldBe(894 * 15.5, 1e-6);
        ZoneLeft core = left.Zones.Single(one => one.Zone == "B");
        core.LeftMetres.ShouldBe(668 * 14.0, 1e-6);
        core.LeftByLeastLength.ShouldBe(668);
    }

    [Fact]
    public async Task The_three_missed_piles_are_the_gaps_and_no_other_is_claimed()
        => (await ReadAsync()).Gaps.Select(pile => pile.Number).ShouldBe(Missed);

    [Fact]
    public async Task No_row_of_the_demo_was_left_unfinished_the_barges_stopped_in_the_row_in_progress()
        => (await ReadAsync(new ReadOutstanding.Request(Kind: OutstandingKind.UnfinishedRow))).Rows.Select(pile => pile.Number).ShouldBeEmpty();

    [Fact]
    public async Task Records_that_wait_are_those_of_the_planted_swap_and_frame()
    {
        OutstandingView left = await ReadAsync();

        left.Awaiting.Select(record => record.RecordId).ShouldBe(
            [.. RawFiles.RecordsOf("swapped-number"), .. RawFiles.RecordsOf("wrong-frame")], ignoreOrder: true);
        WaitingRecord swapped = left.Awaiting.Single(record => record.RecordedNumber == "B-0930");
        swapped.Reason.ShouldBe(MatchOutcome.SwappedNumbers);
        swapped.Nearest.ShouldBe("B-0929");
        swapped.DistanceToNamedMetres!.Value.ShouldBe(2.1, 0.3);
        left.Zones.Sum(zone => zone.AwaitingDecision).ShouldBe(8);
    }

    [Fact]
    public async Task Kinds_part_the_outstanding_piles()
    {
        int sum = 0;
        foreach (OutstandingKind kind in Enum.GetValues<OutstandingKind>())
        {
            OutstandingView of = await ReadAsync(new ReadOutstanding.Request(Kind: kind));
            of.Rows.ShouldAllBe(pile => pile.Kind == kind);
            sum += of.Total;
        }

        sum.ShouldBe(2522);
    }

    [Fact]
    public async Task A_page_of_a_zone_holds_the_rows_asked_for()
    {
        OutstandingView all = await ReadAsync(new ReadOutstanding.Request(Zone: "C"));
        OutstandingView page = await ReadAsync(new ReadOutstanding.Request(Zone: "C", Skip: 100, Take: 50));

        all.Total.ShouldBe(960);
        all.Rows.Select(pile => pile.Number).ShouldBeInOrder(SortDirection.Ascending, StringComparer.Ordinal);
        page.Total.ShouldBe(960);
        page.Rows.ShouldBe(all.Rows.Skip(100).Take(50));
        page.Zones.Count.ShouldBe(3);
    }

    [Theory]
    [InlineData(ReadOutstanding.Order.X)]
    [InlineData(ReadOutstanding.Order.Y)]
    [InlineData(ReadOutstanding.Order.Length)]
    [InlineData(ReadOutstanding.Order.Zone)]
    [InlineData(ReadOutstanding.Order.Attempts)]
    public async Task Every_column_sorts_both_ways(ReadOutstanding.Order order)
    {
        OutstandingView up = await ReadAsync(new ReadOutstanding.Request(OrderedBy: order));
        OutstandingView down = await ReadAsync(new ReadOutstanding.Request(OrderedBy: order, Descending: true));

        up.Rows.Select(pile => pile.Number).ShouldBe(down.Rows.Select(pile => pile.Number).Reverse());
        IComparable[] keys = up.Rows.Select(pile => Key(pile, order)).ToArray();
        keys.ShouldBe(keys.Order().ToArray());
    }

    private static IComparable Key(OutstandingPile pile, ReadOutstanding.Order order) => order switch
    {
        ReadOutstanding.Order.X => pile.XMetres,
        ReadOutstanding.Order.Y => pile.YMetres,
        ReadOutstanding.Order.Length => pile.DesignLengthMetres!.Value,
        ReadOutstanding.Order.Attempts => pile.Attempts,
        _ => pile.Zone,
    };

    private async Task<OutstandingView> ReadAsync(ReadOutstanding.Request? request = null)
        => (await ActivatorUtilities.CreateInstance<ReadOutstanding>(demo.Services)
            .RunAsync(await demo.PermitAsync(Role.ProjectManager), request ?? new ReadOutstanding.Request(), TestContext.Current.CancellationToken)).ShouldNotBeNull();
}

/// <summary>A small site on which an attempt was given up and nothing was built after it.</summary>
public sealed class OutstandingAfterAttemptTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    [Fact]
    public async Task An_attempted_pile_for_which_nothing_stands_is_listed_apart_and_is_no_gap()
    {
        await using TestSite site = await TestSite.OpenAsync(database);
        await site.RecordAsync(Role.Surveyor, TestSite.PlannedRow(3));
        var built = TestSite.BuiltRow(3).ToArray();
        built[2] = ((Core.Records.PileInstalledBody)built[2]) with { Installation = TestSite.Built(1) with { Outcome = Outcome.Abandoned } };
        Permit permit = await site.RecordAsync(Role.Surveyor, built);

        OutstandingView left = (await new ReadOutstanding(site.Store).RunAsync(permit, new ReadOutstanding.Request(), TestContext.Current.CancellationToken))!;
        Jobs.Today.TodayView today = (await new Jobs.Today.ReadToday(site.Store, new SettableTime { Now = new(2026, 3, 10, 18, 0, 0, TimeSpan.Zero) })
            .RunAsync(permit, null, TestContext.Current.CancellationToken))!;

        left.Attempted.ShouldHaveSingleItem().Number.ShouldBe(TestSite.Number(1));
        left.Gaps.ShouldBeEmpty();
        left.Rows.ShouldHaveSingleItem().Attempts.ShouldBe(1);
        today.Day.ShouldBe(new DateOnly(2026, 3, 10));
        Jobs.Today.AttemptNotCompleted attempt = today.Days[^1].NotCompleted.ShouldHaveSingleItem();
        attempt.Number.ShouldBe(TestSite.Number(1));
        attempt.State.ShouldBe(PileState.Outstanding);
        today.Days[^1].Total.AttemptsNotCompleted.ShouldBe(1);
        today.Rate.ShouldBeNull(); // The only day with records is not over.
    }

    [Fact]
    public async Task Before_anything_is_recorded_everything_is_empty_and_nothing_breaks()
    {
        await using TestSite site = await TestSite.OpenAsync(database);
        Permit permit = await site.PermitAsync(Role.ProjectManager);

        OutstandingView left = (await new ReadOutstanding(site.Store).RunAsync(permit, new ReadOutstanding.Request(), TestContext.Current.CancellationToken))!;
        Jobs.Today.TodayView today = (await new Jobs.Today.ReadToday(site.Store, new SettableTime()).RunAsync(permit, null, TestContext.Current.CancellationToken))!;
        var review = await new Jobs.Deviations.ReviewDeviations(site.Store).RunAsync(permit, Jobs.Deviations.DeviationSelection.All, TestContext.Current.CancellationToken);

        left.Total.ShouldBe(0);
        left.Zones.ShouldBeEmpty();
        today.LatestWithRecords.ShouldBeNull();
        today.DaysOld.ShouldBeNull();
        today.Checks.ShouldHaveSingleItem().LastDay.ShouldBeNull();
        review.Figures.ShouldBeNull();
        review.Choices.Barges.ShouldBeEmpty();
    }
}
