using NodaTime;
using Shouldly;
using SiteProgress.Jobs.History;
using SiteProgress.Web.History;
using Xunit;

namespace SiteProgress.Web.Tests.History;

public sealed class HistoryQueryTests
{
    [Fact]
    public void An_address_reads_back_to_what_it_was_made_from()
    {
        HistoryQuery asked = HistoryQuery.Read("withdrawals", "account 1", "2026-03-02", "2026-03-09", "3");

        asked.Filter.ShouldBe(new HistoryFilter(HistoryGroup.Withdrawals, "account 1", new LocalDate(2026, 3, 2), new LocalDate(2026, 3, 9)));
        asked.Page.ShouldBe(3);
        asked.Address("s").ToString().ShouldBe("/sites/s/history?what=withdrawals&by=account%201&from=2026-03-02&to=2026-03-09");
    }

    [Theory]
    [InlineData("nonsense", "32.1.2026", "-4")]
    [InlineData(null, null, null)]
    [InlineData("", "", "")]
    public void What_nobody_understands_narrows_nothing(string? group, string? day, string? page)
    {
        HistoryQuery asked = HistoryQuery.Read(group, "", day, day, page);

        asked.Filter.ShouldBe(new HistoryFilter(null, null, null, null));
        asked.Page.ShouldBe(1);
    }

    [Fact]
    public void Every_group_has_a_word() => HistoryQuery.Groups.Select(one => one.Group).Order().ShouldBe(Enum.GetValues<HistoryGroup>().Order());
}
