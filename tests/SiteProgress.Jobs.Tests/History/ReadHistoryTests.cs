using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using Shouldly;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.History;
using SiteProgress.Jobs.Recording;
using SiteProgress.Jobs.Verification;
using Xunit;

namespace SiteProgress.Jobs.Tests.History;

/// <summary>The history of a real site: what was decided, by whom and why, without the rows of batches.</summary>
public sealed class ReadHistoryTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    private static readonly HistoryFilter All = new(null, null, null, null);

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Roles_batches_withdrawals_keys_and_clocks_stand_in_it_and_rows_do_not()
    {
        await using TestSite site = await FilledAsync();

        HistoryPart part = await ReadAsync(site, All);

        part.Total.ShouldBe(part.Entries.Count);
        part.Entries.Select(entry => entry.Sequence).ShouldBeInOrder(SortDirection.Descending);
        part.Entries.ShouldNotContain(entry => entry.What.StartsWith("Pile planned", StringComparison.Ordinal) || entry.What.StartsWith("Pile installed", StringComparison.Ordinal));
        part.Entries.Select(entry => entry.What).ShouldContain("A key was made for the sender Tern logger (Tern).");
        part.Entries.Single(entry => entry.What.Contains("was withdrawn", StringComparison.Ordinal)).ShouldSatisfyAllConditions(
            entry => entry.Why.ShouldBe("sent by mistake"),
            entry => entry.Touches!.Page.ShouldBe(HistoryPageName.Batch));
        part.Entries.Single(entry => entry.Group == HistoryGroup.Measuring).What.ShouldStartWith("The clock of Tern was put right by -60 s");
        part.Entries[^1].What.ShouldBe("Site opened: Invented test site.");
    }

    [Fact]
    public async Task Treatment_control_points_and_days_are_told_in_sentences_that_lead_to_their_pages()
    {
        await using TestSite site = await FilledAsync();
        await site.Services.GetRequiredService<SiteRecorder>().AppendAsync(
            await site.PermitAsync(Role.Surveyor), Right.KeepSurvey,
            _ =>
            [
                new NonConformanceRaisedBody(1, [new FindingShown("A-0001", CheckName.Position, "line"), new FindingShown("A-0001", CheckName.Sand, "line")], "Beyond the limit.", new LocalDate(2026, 4, 1)),
                new DispositionProposedBody(1, Disposition.InstallAgain, "Within reach.", "D-7", null, []),
                new LotSubmittedBody(1, ["A-0001"], "First day."),
                new ControlPointObservedBody("M-1", new RecordedPosition(Frame.ProjectedCrs, 390000.1234, 6161000.5), 1, 0.004, new LocalDate(2026, 4, 7), "GNSS"),
                new DailyReportSignedBody(new LocalDate(2026, 4, 7), 1, Countersigned: true),
            ],
            Cancellation);

        (await ReadAsync(site, All)).Entries.Take(5).Select(entry => (entry.What, entry.Why, entry.Touches!.Page, entry.Touches.Name)).ShouldBe(
        [
            ("Daily report of 2026-04-07, issue 1, countersigned for the owner.", null, HistoryPageName.DailyReport, "2026-04-07"),
            ("M-1 observed on 2026-04-07, ±4 mm (GNSS): E 390000.123 m, N 6161000.500 m.", null, HistoryPageName.ControlPoints, ""),
            ("Lot 1 submitted, 1 pile.", "First day.", HistoryPageName.Lot, "1"),
            ("Non-conformance 1: proposed to install it again, designer's reference D-7.", "Within reach.", HistoryPageName.NonConformance, "1"),
            ("Non-conformance 1 raised about A-0001, due on 2026-04-01.", "Beyond the limit.", HistoryPageName.NonConformance, "1"),
        ]);
    }

    [Theory]
    [InlineData(HistoryGroup.Batches, 2)]
    [InlineData(HistoryGroup.Withdrawals, 1)]
    [InlineData(HistoryGroup.People, 4)]
    [InlineData(HistoryGroup.Keys, 1)]
    [InlineData(HistoryGroup.Measuring, 1)]
    [InlineData(HistoryGroup.Settings, 2)]
    [InlineData(HistoryGroup.Progress, 0)]
    public async Task It_narrows_to_a_group(HistoryGroup group, int entries)
    {
        await using TestSite site = await FilledAsync();

        (await ReadAsync(site, All with { Group = group })).Total.ShouldBe(entries);
    }

    [Fact]
    public async Task It_narrows_to_a_recorder_and_to_days_and_gives_pages()
    {
        await using TestSite site = await FilledAsync();
        string surveyor = SiteRecorder.AccountName(site.People[Role.Surveyor]);

        HistoryPart by = await ReadAsync(site, All with { By = surveyor });
        by.Total.ShouldBe(5);
        by.Recorders.ShouldContain(one => one.Written == SiteRecorder.Operator);
        (await ReadAsync(site, All with { To = new LocalDate(2020, 1, 1) })).Total.ShouldBe(0);
        (await ReadAsync(site, All with { From = new LocalDate(2020, 1, 1) })).Total.ShouldBe((await ReadAsync(site, All)).Total);
        HistoryPart second = await new ReadHistory(site.Store).RunAsync(await site.PermitAsync(Role.Surveyor), All, 2, 3, Cancellation);
        second.Entries.Count.ShouldBe(3);
        second.Total.ShouldBe((await ReadAsync(site, All)).Total);
    }

    [Fact]
    public void Every_kind_of_record_belongs_to_a_group()
        => Enum.GetValues<HistoryGroup>().SelectMany(HistoryGroups.Kinds).Order().ShouldBe(Enum.GetValues<RecordKind>().Select(kind => (short)kind).Order());

    [Fact]
    public async Task Whoever_sees_the_site_may_verify_it()
    {
        await using TestSite site = await FilledAsync();
        VerifyOwnSite verify = new(site.Services.GetRequiredService<VerifySite>());

        SiteVerification found = (await verify.RunAsync(await site.PermitAsync(Role.OwnersRepresentative), Cancellation)).ShouldNotBeNull();

        found.Sound.ShouldBeTrue();
        found.KeptHeads.ShouldBeGreaterThan(3);
        found.LastKept!.Hash.ShouldBe(found.HeadHash);
    }

    private static async Task<HistoryPart> ReadAsync(TestSite site, HistoryFilter filter)
        => await new ReadHistory(site.Store).RunAsync(await site.PermitAsync(Role.OwnersRepresentative), filter, 0, 1000, Cancellation);

    private async Task<TestSite> FilledAsync()
    {
        TestSite site = await TestSite.OpenAsync(database);
        await site.RecordAsync(Role.Surveyor, TestSite.PlannedRow(3));
        await site.RecordAsync(Role.Surveyor, TestSite.BuiltRow(3));
        long batch = await site.OneAsync<long>("select max(batch) from derived.batch b join record.site s on s.site = b.site where s.code = $1", site.Code);
        Instant from = Instant.FromUtc(2026, 3, 1, 0, 0);
        await site.RecordAsync(
            Role.Surveyor,
            [
                new BatchWithdrawnBody(batch, "sent by mistake"),
                new SenderKeyMadeBody(Guid.NewGuid(), "Tern logger", ["Tern"]),
                new ClockCorrectedBody(new ClockCorrection("Tern", null, from, from + Duration.FromDays(1), 60, "against the site clock")),
            ]);
        return site;
    }
}
