using Shouldly;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Senders;
using Xunit;

namespace SiteProgress.Jobs.Tests.Senders;

/// <summary>What becomes of logs that a machine sends.</summary>
public sealed class TakeLogsTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    private static readonly DateTime Start = new(2026, 3, 10, 7, 0, 0, DateTimeKind.Utc);

    [Fact]
    public async Task A_log_sent_again_is_recorded_once_and_one_with_other_samples_under_its_identifier_is_a_problem()
    {
        await using SentSite site = await SentSite.OpenAsync(database);
        string log = PlainLog.Header + PlainLog.Rows("T-1", "A-0001", Start, -28.1, 4);

        (await site.SendAsync(log, SentForm.Text)).Rows.ShouldHaveSingleItem().ShouldBe(new SentRowAnswer(2, "T-1", SentRowBecame.Recorded));
        (await site.SendAsync(log, SentForm.Text)).Rows.ShouldHaveSingleItem().Became.ShouldBe(SentRowBecame.AlreadyRecorded);
        SentAnswer other = await site.SendAsync(PlainLog.Header + PlainLog.Rows("T-1", "A-0001", Start, -28.2, 4), SentForm.Text);

        other.Rows.ShouldHaveSingleItem().Became.ShouldBe(SentRowBecame.NotTaken);
        other.Problems.ShouldHaveSingleItem().Expected.ShouldContain("recorded before with other content");
        (await site.CountAsync(nameof(RecordKind.PileLogged))).ShouldBe(1);
    }

    [Fact]
    public async Task A_log_without_an_identifier_or_of_another_barge_is_not_taken()
    {
        await using SentSite site = await SentSite.OpenAsync(database);
        string rows = PlainLog.Rows("T-1", "A-0001", Start, -28.1, 4);

        (await site.SendAsync(PlainLog.Header + rows.Replace(",T-1,", ",,", StringComparison.Ordinal), SentForm.Text)).Problems.ShouldHaveSingleItem().Column.ShouldBe("Record");
        (await site.SendAsync(PlainLog.Header + rows.Replace(",Tern,", ",Plover,", StringComparison.Ordinal), SentForm.Text)).Recorded.ShouldBe(0);
        (await site.CountAsync(nameof(RecordKind.PileLogged))).ShouldBe(0);
    }

    [Fact]
    public async Task A_log_and_an_installation_may_carry_one_identifier()
    {
        await using SentSite site = await SentSite.OpenAsync(database);

        (await site.SendAsync(SentSite.List(SentSite.Json("T-1")))).Recorded.ShouldBe(1);
        (await site.SendAsync(PlainLog.Header + PlainLog.Rows("T-1", "A-0001", Start, -28.1, 16), SentForm.Text)).Recorded.ShouldBe(1);

        (await site.OneAsync<short>("select l.outcome from derived.pile_log l join record.site s on s.site = l.site where s.code = $1", site.Code)).ShouldBe((short)1);
    }

    [Fact]
    public async Task A_log_sent_as_a_table_is_known_when_it_comes_as_lists_of_JSON_and_is_recorded_once_in_a_message()
    {
        await using SentSite site = await SentSite.OpenAsync(database);
        string table = PlainLog.Header + PlainLog.Rows("T-1", "A-0001", Start, -28.1, 4);
        string json = PlainLog.Json("T-1", "A-0001", Start, -28.1, 4);

        (await site.SendAsync($"[{json},{json}]")).Rows.Select(row => row.Became).ShouldBe([SentRowBecame.Recorded, SentRowBecame.AlreadyRecorded]);
        (await site.SendAsync(table, SentForm.Text)).Rows.ShouldHaveSingleItem().Became.ShouldBe(SentRowBecame.AlreadyRecorded);
        (await site.SendAsync(json)).Rows.ShouldHaveSingleItem().Became.ShouldBe(SentRowBecame.AlreadyRecorded);
        (await site.CountAsync(nameof(RecordKind.PileLogged))).ShouldBe(1);
        (await site.OneAsync<long>("select count(*) from record.log_samples l join record.site s on s.site = l.site where s.code = $1", site.Code)).ShouldBe(1);
    }

    [Fact]
    public async Task A_log_of_JSON_with_a_value_at_fault_is_not_taken_and_the_others_do_not_wait_for_it()
    {
        await using SentSite site = await SentSite.OpenAsync(database);
        string good = PlainLog.Json("T-1", "A-0001", Start, -28.1, 4);
        string bad = PlainLog.Json("T-2", "A-0002", Start.AddHours(2), -28.1, 4).Replace("\"casingTipLevel\":[-11.00", "\"casingTipLevel\":[\"low\"", StringComparison.Ordinal);
        string other = PlainLog.Json("T-1", "A-0001", Start, -28.2, 4);

        SentAnswer answer = await site.SendAsync($"{{\"logs\":[{bad},{good},{other}]}}");

        answer.Rows.Select(row => (row.Row, row.Became)).ShouldBe([(1L, SentRowBecame.NotTaken), (2L, SentRowBecame.Recorded), (3L, SentRowBecame.NotTaken)]);
        answer.Problems.Select(problem => (problem.Row, problem.Column)).ShouldBe([(1L, "casingTipLevel[0]"), (3L, "Record")]);
        (answer.RowsRead, answer.Recorded, answer.NotTaken, answer.WholeRefused).ShouldBe((3, 1, 2, false));
    }
}
