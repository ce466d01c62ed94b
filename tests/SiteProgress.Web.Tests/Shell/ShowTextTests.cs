using Bunit;
using Shouldly;
using SiteProgress.Web.Shell;
using Xunit;

namespace SiteProgress.Web.Tests.Shell;

/// <summary>Text of records and sentences as a page sets it.</summary>
public sealed class ShowTextTests : BunitContext
{
    [Theory]
    [InlineData("due on 2026-06-12.", "due on <span class=\"unbroken\">2026-06-12</span>.")]
    [InlineData("No records since Fri 2026-05-29, ", "No records since <span class=\"unbroken\">Fri 2026-05-29</span>, ")]
    [InlineData("2026-05-29 06:30", "<span class=\"unbroken\">2026-05-29 06:30</span>")]
    [InlineData("ratio a_s >= 0.7", "ratio a<sub>s</sub> \u2265 0.7")]
    [InlineData("a_section <= 3 < 4", "a_section \u2264 3 &lt; 4")]
    [InlineData("<b>not markup</b>", "&lt;b&gt;not markup&lt;/b&gt;")]
    [InlineData("", "")]
    public void Dates_stay_whole_and_signs_are_set(string text, string markup)
        => Render(ShowText.Of(text)).Markup.ShouldBe(markup);

    [Fact]
    public void Nothing_sets_nothing() => Render(ShowText.Of(null)).Markup.ShouldBeEmpty();
}
