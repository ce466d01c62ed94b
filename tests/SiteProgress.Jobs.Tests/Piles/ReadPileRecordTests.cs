using Microsoft.Extensions.DependencyInjection;
using Shouldly;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Piles;
using Xunit;

namespace SiteProgress.Jobs.Tests.Piles;

public sealed class ReadPileRecordTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    private static readonly CancellationToken Stop = CancellationToken.None;

    [Fact]
    public async Task A_built_pile_shows_design_as_built_and_the_numbers_behind_its_checks()
    {
        await using TestSite site = await PileJobs.FilledAsync(database, 3, 3);

        PileRecord record = (await ReadAsync(site, "A-0002"))!;

        record.State.ShouldBe(PileState.Installed);
        record.Design.Place.Site.XMetres.ShouldBe(2.1, 1e-9);
        AsBuiltPile built = record.AsBuilt.ShouldNotBeNull();
        built.Position!.Place.Site.XMetres.ShouldBe(2.14, 1e-9);

        // The test site's control points put X along easting from 390000 and Y along northing from 6161000.
        built.Position.Place.Projected.EastingMetres.ShouldBe(390002.14, 0.0005);
        built.Position.Place.Projected.NorthingMetres.ShouldBe(6161000.03, 0.0005);
        built.Position.Deviation.RadialMetres.ShouldBe(0.05, 1e-9);
        built.LengthMetres!.Value.ShouldBe(18.1, 1e-9);
        built.Sand.InCasing.ShouldBe(71.5);
        built.Sand.InPile!.Value.ShouldBe(71.5 * 0.8, 1e-9);
        // The agreement of sand is asked only where the site sets how far it may differ.
        record.Checks.Select(check => check.Check).ShouldBe(CheckNames.OfPiles.Where(name => name != CheckName.SandAgreement));
        record.Checks.Single(check => check.Check == CheckName.Continuity).Verdict.ShouldBe(Verdict.NotJudged);
        record.Neighbours.ShouldBe(new NeighbourNumbers("A-0001", "A-0003", "A-0001", "A-0003"));
    }

    [Fact]
    public async Task An_attempt_keeps_every_value_as_it_was_recorded()
    {
        await using TestSite site = await PileJobs.FilledAsync(database, 3, 3);

        PileAttempt attempt = (await ReadAsync(site, "A-0002"))!.Attempts.ShouldHaveSingleItem();

        attempt.Recorded.ShouldBe(TestSite.Built(1));
        attempt.Stands.ShouldBeTrue();
        attempt.FileName.ShouldBe("built.csv");
        attempt.Line.ShouldBe(3);
    }

    [Fact]
    public async Task A_pile_on_which_nothing_stands_has_no_as_built_and_no_checks()
    {
        await using TestSite site = await PileJobs.FilledAsync(database, 1, 0);

        PileRecord record = (await ReadAsync(site, "A-0001"))!;

        record.AsBuilt.ShouldBeNull();
        record.Checks.ShouldBeEmpty();
        record.Neighbours.ShouldBe(new NeighbourNumbers(null, null, null, null));
    }

    [Theory]
    [InlineData("A-0001")]
    [InlineData("A-0002")]
    public async Task An_attempt_under_the_neighbours_number_shows_on_both_piles_and_stands_for_neither(string number)
    {
        await using TestSite site = await PileJobs.FilledAsync(database, 2, 0);
        await site.RecordAsync(Role.Surveyor, Rows(TestSite.Built(0) with { PileNumber = "A-0002" }));

        PileRecord record = (await ReadAsync(site, number))!;

        PileAttempt attempt = record.Attempts.ShouldHaveSingleItem();
        attempt.Match.ShouldBe(MatchOutcome.NumberContradictsPosition);
        attempt.WaitsForDecision.ShouldBeTrue();
        attempt.Adopted.ShouldBeNull();
        record.State.ShouldBe(PileState.Outstanding);
    }

    [Fact]
    public async Task The_history_keeps_a_schedule_row_that_was_replaced_and_a_batch_that_was_withdrawn()
    {
        await using TestSite site = await PileJobs.FilledAsync(database, 1, 0);
        await site.RecordAsync(Role.ProjectManager, TestSite.PlannedRow(1));
        await site.RecordAsync(Role.Surveyor, TestSite.BuiltRow(1));
        long batch = await site.OneAsync<long>("select max(batch) from derived.batch b join record.site s using (site) where s.code = $1", site.Code);
        await site.RecordAsync(Role.Surveyor, [new BatchWithdrawnBody(batch, "Sent twice.")]);

        PileRecord record = (await ReadAsync(site, "A-0001"))!;

        record.History.Where(line => !line.WholeSite).Select(line => (line.Kind, line.Counts)).ShouldBe(
        [
            (RecordKind.PilePlanned, false),
            (RecordKind.PilePlanned, true),
            (RecordKind.PileInstalled, false),
            (RecordKind.BatchWithdrawn, true),
        ]);
        record.History.Count(line => line.WholeSite).ShouldBe(2);
        record.History.Select(line => line.Sequence).ShouldBeInOrder();
        record.Attempts.ShouldBeEmpty();
    }

    [Fact]
    public async Task A_number_typed_another_way_leads_to_the_pile_that_was_meant()
    {
        await using TestSite site = await PileJobs.FilledAsync(database, 30, 0);
        Permit permit = await site.PermitAsync(Role.ProjectManager);
        ReadPileRecord job = site.Services.GetRequiredService<ReadPileRecord>();

        (await job.RunAsync(permit, "A12", Stop)).ShouldBeNull();
        (await job.LookAroundAsync(permit, "a12", Stop)).Meant.ShouldBe("A-0012");
        ReadPileRecord.Unknown unknown = await job.LookAroundAsync(permit, "A-0099", Stop);
        unknown.Meant.ShouldBeNull();
        unknown.Near.ShouldContain("A-0009");
    }

    [Fact]
    public async Task A_pile_of_another_site_is_not_found()
    {
        await using TestSite other = await PileJobs.FilledAsync(database, 1, 1);
        await using TestSite site = await PileJobs.OpenAsync(database);

        (await ReadAsync(site, "A-0001")).ShouldBeNull();
    }

    private static async Task<PileRecord?> ReadAsync(TestSite site, string number)
        => await site.Services.GetRequiredService<ReadPileRecord>().RunAsync(await site.PermitAsync(Role.OwnersRepresentative), number, Stop);

    private static IReadOnlyList<RecordBody> Rows(params Installation[] installations) =>
    [
        new BatchBody(Guid.NewGuid(), "rows.csv", new string('0', 64), BatchContent.Installations, 1, installations.Length, installations.Length, [], []),
        .. installations.Select((installation, index) => new PileInstalledBody(index + 2, installation)),
    ];
}
