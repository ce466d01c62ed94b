using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using Shouldly;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.DailyReports;
using SiteProgress.Jobs.Progress;
using SiteProgress.Jobs.Verification;
using Xunit;

namespace SiteProgress.Jobs.Tests.Progress;

public sealed class DailyReportTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    private static readonly DateOnly Day = new(2026, 3, 10);

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_report_is_issued_signed_and_countersigned_and_stands_as_it_was_issued_whatever_comes_in_later()
    {
        await using TestSite site = await FilledAsync();
        Permit manager = await site.PermitAsync(Role.ProjectManager), owner = await site.PermitAsync(Role.OwnersRepresentative);
        SettleDailyReport settle = Settle(site);

        (await settle.IssueAsync(manager, Day, null, Cancellation)).ShouldBeNull();
        DailyReportView issued = await ReadAsync(site, null);
        issued.ShownIssue.ShouldBe(1);
        issued.Issue!.HeadSequence.ShouldBe(issued.SequenceOfRecords - 1);
        issued.Issue.IssuedBy.ShouldBe("an account that is no longer here");
        await AddAccountAsync(site, manager.Account, "Invented Manager");
        (await ReadAsync(site, null)).Issue!.IssuedBy.ShouldBe("Invented Manager");
        Cells(issued, "production Tern zone A").ShouldBe(["Tern", "A", "3", "3", "54.30", "214.5", "171.6", "0", "0"]);
        Cells(issued, "standing zone A").ShouldBe(["A", "5", "3", "2", "60.0"]);
        (await settle.CountersignAsync(owner, Day, 1, Cancellation)).ShouldBe("The contractor has not signed it yet.");
        (await settle.SignAsync(manager, Day, 1, Cancellation)).ShouldBeNull();
        (await settle.CountersignAsync(owner, Day, 1, Cancellation)).ShouldBeNull();
        (await settle.CountersignAsync(owner, Day, 1, Cancellation)).ShouldBe("It is countersigned already.");

        await ActivatorUtilities.CreateInstance<KeepDayNotes>(site.Services).RunAsync(manager, Day, new DayNotes("calm", null, null, null, null), Cancellation);
        DailyReportView later = await ReadAsync(site, null);
        later.Shown.Lines.ShouldBe(issued.Shown.Lines, comparer: LineComparer);
        later.HasChanged.ShouldBeTrue();
        (await settle.IssueAsync(manager, Day, " ", Cancellation)).ShouldBe("This day's report was issued before; say why it is issued again.");
        (await settle.IssueAsync(manager, Day, "weather was left out", Cancellation)).ShouldBeNull();
        DailyReportView second = await ReadAsync(site, null);
        second.ShownIssue.ShouldBe(2);
        second.Issue!.SignedAt.ShouldBeNull();
        Cells(second, "weather and sea").ShouldBe(["weather and sea", "calm"]);
        (await ReadAsync(site, 1)).Shown.Lines.ShouldBe(issued.Shown.Lines, comparer: LineComparer);
        (await settle.IssueAsync(manager, Day, "again", Cancellation)).ShouldBe("The last issue says exactly this already.");
        (await ActivatorUtilities.CreateInstance<VerifySite>(site.Services).RunAsync(site.Code, Cancellation))!.Tables.ShouldAllBe(table => table.Identical);
    }

    [Fact]
    public async Task The_owner_disputes_a_line_and_the_line_must_be_there()
    {
        await using TestSite site = await FilledAsync();
        Permit manager = await site.PermitAsync(Role.ProjectManager), owner = await site.PermitAsync(Role.OwnersRepresentative);
        SettleDailyReport settle = Settle(site);
        (await settle.IssueAsync(manager, Day, null, Cancellation)).ShouldBeNull();

        (await settle.DisputeAsync(owner, Day, 1, "hours Tern 9", "nobody worked", Cancellation)).ShouldBe("The report has no line \"hours Tern 9\".");
        (await settle.DisputeAsync(owner, Day, 1, "", "two piles, not three", Cancellation)).ShouldBe("Choose the line that is disputed.");
        (await settle.DisputeAsync(owner, Day, 2, "production all", "two piles, not three", Cancellation)).ShouldBe("There is no issue 2 of that day's report.");
        (await settle.DisputeAsync(owner, Day, 1, "production all", "two piles, not three", Cancellation)).ShouldBeNull();

        (await ReadAsync(site, 1)).Issue!.Disputes.Select(one => (one.Line, one.Text)).ShouldBe([("production all", "two piles, not three")]);
    }

    [Fact]
    public async Task A_day_without_piles_and_hours_has_nothing_to_report()
    {
        await using TestSite site = await FilledAsync();

        (await Settle(site).IssueAsync(await site.PermitAsync(Role.ProjectManager), Day.AddDays(5), null, Cancellation))
            .ShouldBe("Nothing was built and no hours were written on that day; there is nothing to report.");
    }

    private static readonly IEqualityComparer<ReportLine> LineComparer = EqualityComparer<ReportLine>.Create(
        (one, other) => one!.Section == other!.Section && one.Name == other.Name && one.Cells.SequenceEqual(other.Cells), line => line.Name.GetHashCode(StringComparison.Ordinal));

    private static IReadOnlyList<string> Cells(DailyReportView view, string line) => view.Shown.Lines.Single(one => one.Name == line).Cells;

    private async Task<TestSite> FilledAsync()
    {
        TestSite site = await TestSite.OpenAsync(database);
        await site.RecordAsync(Role.ProjectManager, TestSite.PlannedRow(5));
        await site.RecordAsync(Role.Surveyor, TestSite.BuiltRow(3));
        return site;
    }

    private static SettleDailyReport Settle(TestSite site) => ActivatorUtilities.CreateInstance<SettleDailyReport>(site.Services);

    private static async Task AddAccountAsync(TestSite site, Guid account, string name)
    {
        await using NpgsqlCommand command = site.Store.CreateCommand(
            """
            insert into account.account (id, display_name, email_confirmed, phone_number_confirmed, two_factor_enabled, lockout_enabled, access_failed_count)
            values ($1, $2, false, false, false, false, 0)
            """);
        command.Parameters.AddWithValue(account);
        command.Parameters.AddWithValue(name);
        await command.ExecuteNonQueryAsync(Cancellation);
    }

    private static async Task<DailyReportView> ReadAsync(TestSite site, int? issue)
        => (await ActivatorUtilities.CreateInstance<ReadDailyReport>(site.Services).RunAsync(await site.PermitAsync(Role.Surveyor), Day, issue, Cancellation)).ShouldNotBeNull();
}
