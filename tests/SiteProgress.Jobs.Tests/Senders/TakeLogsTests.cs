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
}
