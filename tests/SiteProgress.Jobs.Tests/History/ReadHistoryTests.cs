using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using Shouldly;
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
