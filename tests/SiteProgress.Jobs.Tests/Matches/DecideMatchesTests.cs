using Microsoft.Extensions.DependencyInjection;
using Shouldly;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Matches;
using SiteProgress.Jobs.Recording;
using Xunit;

namespace SiteProgress.Jobs.Tests.Matches;

/// <summary>Records whose match waits on a small invented site: two numbers swapped, one record beside the design, one with coordinates exchanged.</summary>
public sealed class DecideMatchesTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    private static readonly CancellationToken Stop = CancellationToken.None;

    [Fact]
    public async Task Swapped_numbers_are_decided_together_and_both_numbers_are_kept()
    {
        await using TestSite site = await SwappedAsync();
        Permit surveyor = await site.PermitAsync(Role.Surveyor);
        WaitingGroup group = (await WaitingAsync(site)).Groups.ShouldHaveSingleItem();
        (group.Outcome, group.Proposed).ShouldBe((MatchOutcome.SwappedNumbers, MatchAnswer.ByPosition));

        (await Decide(site).RunAsync(surveyor, [.. group.Records.Select(one => new AskedMatch(one.Installation.Located.Sequence, MatchAnswer.ByPosition))], "The logbook of the shift says so.", Stop)).ShouldBeNull();

        WaitingMatches after = await WaitingAsync(site);
        after.Groups.ShouldBeEmpty();
        after.Decisions.ShouldHaveSingleItem().Decision.Body.Choices.Count.ShouldBe(2);
        (await site.OneAsync<string>("select string_agg(recorded_number || '>' || adopted, ' ' order by sequence) from derived.installation i join record.site r using (site) where r.code = $1", site.Code))
            .ShouldBe("A-0002>A-0001 A-0001>A-0002");
        (await site.OneAsync<long>("select count(*) from derived.pile p join record.site r using (site) where r.code = $1 and state = $2", site.Code, (short)PileState.Installed)).ShouldBe(2);
    }

    [Fact]
    public async Task Waiting_records_are_drawn_among_the_piles_around_them_and_those_far_apart_in_drawings_of_their_own()
    {
        await using TestSite site = await OpenAsync();
        await site.RecordAsync(Role.Surveyor, TestSite.PlannedRow(60));
        await site.RecordAsync(Role.Surveyor, Built(
            TestSite.Built(0) with { PileNumber = "A-0002" }, TestSite.Built(1) with { RecordId = "two", PileNumber = "A-0001" },
            TestSite.Built(50) with { RecordId = "x", PileNumber = "A-0052" }, TestSite.Built(51) with { RecordId = "y", PileNumber = "A-0051" },
            TestSite.Built(2) with { RecordId = "held" }));

        WaitingGroup group = (await WaitingAsync(site)).Groups.ShouldHaveSingleItem();

        group.Plans.Count.ShouldBe(2);
        MatchPlan first = group.Plans[0];
        first.Records.Select(one => (one.Number, one.Named, one.IsElsewhere)).ShouldBe([("A-0002", "A-0002", false), ("A-0001", "A-0001", false)]);
        first.SpacingMetres.ShouldBe(2.1, 1e-9);
        first.Piles.Where(pile => pile.IsHeld).Select(pile => pile.Number).ShouldBe(["A-0003"]);
        first.Piles.ShouldAllBe(pile => pile.At.XMetres < 10);
        group.Plans[1].Records.Select(one => one.Number).ShouldBe(["A-0052", "A-0051"]);
    }

    [Fact]
    public async Task The_second_to_decide_is_told_and_a_withdrawn_decision_waits_again()
    {
        await using TestSite site = await SwappedAsync();
        Permit surveyor = await site.PermitAsync(Role.Surveyor);
        AskedMatch[] asked = [.. (await WaitingAsync(site)).Groups[0].Records.Select(one => new AskedMatch(one.Installation.Located.Sequence, MatchAnswer.ByPosition))];
        (await Decide(site).RunAsync(surveyor, asked, "as the logbook says", Stop)).ShouldBeNull();
        long decision = (await WaitingAsync(site)).Decisions[0].Decision.Sequence;

        (await Decide(site).RunAsync(surveyor, [asked[0] with { Answer = MatchAnswer.ByNumber }], "no", Stop))!.ShouldContain($"waits no longer: record {decision} decided it");
        (await Decide(site).WithdrawAsync(surveyor, decision, "The logbook was another day's.", Stop)).ShouldBeNull();
        (await Decide(site).WithdrawAsync(surveyor, decision, "again", Stop))!.ShouldContain("withdrawn already");

        (await WaitingAsync(site)).Groups.Single().Records.Count.ShouldBe(2);
        (await site.OneAsync<long>("select count(*) from derived.installation i join record.site r using (site) where r.code = $1 and adopted is null", site.Code)).ShouldBe(2);
    }

    [Fact]
    public async Task Exchanged_coordinates_are_read_anew_and_a_record_set_aside_stands_for_no_pile()
    {
        await using TestSite site = await OpenAsync();
        await site.RecordAsync(Role.Surveyor, TestSite.PlannedRow(60));
        await site.RecordAsync(Role.Surveyor, Built(
            TestSite.Built(40) with { TouchDown = null, AtEndOfPenetration = new RecordedPosition(Frame.SiteGrid, 0, 40 * 2.1) },
            TestSite.Built(3) with { RecordId = "far", TouchDown = null, AtEndOfPenetration = new RecordedPosition(Frame.SiteGrid, 3 * 2.1, -30) }));
        Permit surveyor = await site.PermitAsync(Role.Surveyor);
        WaitingMatches waiting = await WaitingAsync(site);
        WaitingRecord exchanged = waiting.Groups.Single(group => group.Outcome == MatchOutcome.AxesExchanged).Records.Single();
        WaitingRecord far = waiting.Groups.Single(group => group.Outcome != MatchOutcome.AxesExchanged).Records.Single();

        (await Decide(site).RunAsync(
            surveyor,
            [new AskedMatch(exchanged.Installation.Located.Sequence, MatchAnswer.ByNumberReadAnew), new AskedMatch(far.Installation.Located.Sequence, MatchAnswer.SetAside)],
            "Typed the wrong way round; a trial outside the design.", Stop)).ShouldBeNull();

        (await WaitingAsync(site)).Groups.ShouldBeEmpty();
        (await site.OneAsync<double>("select deviation_radial from derived.pile p join record.site r using (site) where r.code = $1 and number = 'A-0041'", site.Code)).ShouldBe(0, 1e-6);
        (await site.OneAsync<long>("select count(*) from derived.installation i join record.site r using (site) where r.code = $1 and adopted is null and not waits_for_decision", site.Code)).ShouldBe(1);
    }

    [Theory]
    [InlineData(MatchAnswer.Another, "Z-9", "because", "there is no pile Z-9 in the design")]
    [InlineData(MatchAnswer.Another, "", "because", "expected the number of the planned pile")]
    [InlineData(MatchAnswer.ByNumberReadAnew, null, "because", "no longer speaks for this choice")]
    [InlineData(MatchAnswer.ByNumber, null, "", "The reason is missing")]
    public async Task What_cannot_be_decided_says_which_record_and_what_was_expected_and_records_nothing(MatchAnswer answer, string? pile, string reason, string expected)
    {
        await using TestSite site = await SwappedAsync();
        Permit surveyor = await site.PermitAsync(Role.Surveyor);
        WaitingRecord[] records = [.. (await WaitingAsync(site)).Groups[0].Records];

        string? refusal = await Decide(site).RunAsync(
            surveyor, [new AskedMatch(records[0].Installation.Located.Sequence, MatchAnswer.ByPosition), new AskedMatch(records[1].Installation.Located.Sequence, answer, pile)], reason, Stop);

        refusal.ShouldNotBeNull().ShouldContain(expected);
        (await WaitingAsync(site)).Decisions.ShouldBeEmpty();
        (await Decide(site).RunAsync(surveyor, [], "because", Stop)).ShouldBe("No record is chosen; expected at least one.");
        (await Decide(site).RunAsync(surveyor, [new AskedMatch(999_999, MatchAnswer.SetAside)], "because", Stop))!.ShouldContain("is no installation");
    }

    private Task<TestSite> OpenAsync() => TestSite.OpenAsync(database, services =>
    {
        services.AddTransient<ReadWaitingMatches>();
        services.AddTransient<DecideMatches>();
    });

    private async Task<TestSite> SwappedAsync()
    {
        TestSite site = await OpenAsync();
        await site.RecordAsync(Role.Surveyor, TestSite.PlannedRow(4));
        Installation one = TestSite.Built(0), other = TestSite.Built(1);
        await site.RecordAsync(Role.Surveyor, Built(one with { PileNumber = other.PileNumber }, other with { PileNumber = one.PileNumber }));
        return site;
    }

    private static IReadOnlyList<RecordBody> Built(params Installation[] installations) =>
    [
        TestSite.BuiltRow(installations.Length)[0],
        .. installations.Select((one, index) => new PileInstalledBody(index + 2, one)),
    ];

    private static DecideMatches Decide(TestSite site) => site.Services.GetRequiredService<DecideMatches>();

    private static async Task<WaitingMatches> WaitingAsync(TestSite site)
        => await site.Services.GetRequiredService<ReadWaitingMatches>().RunAsync(await site.PermitAsync(Role.OwnersRepresentative), Stop);
}
