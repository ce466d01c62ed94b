using Shouldly;
using SiteProgress.Jobs.DailyReports;
using SiteProgress.Web.DailyReports;
using Xunit;

namespace SiteProgress.Web.Tests.DailyReports;

/// <summary>How the sealed text of a daily report is set on its page.</summary>
public sealed class ReportWordsTests
{
    [Theory]
    [InlineData("Delivered to date [m\u00b3]", "149124.1", "149\u2009124.1")]
    [InlineData("Lowest [m]", "-1.17", "\u22121.17")]
    [InlineData("Planned piles", "2160", "2\u2009160")]
    [InlineData("Hours [h]", "10.90", "10.90")]
    [InlineData("Hours [h]", "", "")]
    [InlineData("Radial [mm]", "not judged", "not judged")]
    [InlineData("Remark", "-5 minutes at 12000", "-5 minutes at 12000")]
    [InlineData("Pile", "1234", "1234")]
    public void A_figure_is_set_as_on_other_pages_and_text_is_left_alone(string head, string cell, string shown)
        => ReportWords.Shown(head, cell).ShouldBe(shown);

    [Fact]
    public void A_line_is_told_from_the_others_by_what_stands_in_it()
        => ReportWords.Label(new ReportLine(ReportSection.Hours, "hours Tern 3", ["Tern", "moving", "winching to the next set-up", "contractor", "4.15", ""]))
            .ShouldBe("Hours: Tern, moving, winching to the next set-up, contractor, 4.15");

    [Fact]
    public void No_section_has_two_columns_of_one_name()
    {
        foreach (ReportSection section in Enum.GetValues<ReportSection>()) ReportWords.Of(section).Heads.ShouldBeUnique();
    }
}
