using Shouldly;
using SiteProgress.Jobs.Changes;
using SiteProgress.Web.Shell;
using Xunit;

namespace SiteProgress.Web.Tests.Shell;

/// <summary>Word of new records and who hears it.</summary>
public sealed class SiteChangesTests
{
    [Theory]
    [InlineData("3:120", 3, 120L)]
    [InlineData("1:9000000000", 1, 9_000_000_000L)]
    public void A_notice_names_site_and_sequence(string payload, int site, long sequence)
        => RecordNotice.Read(payload).ShouldBe(new RecordNotice(site, sequence));

    [Theory]
    [InlineData("")]
    [InlineData("3")]
    [InlineData(":5")]
    [InlineData("x:5")]
    [InlineData("3:-1")]
    public void Anything_else_is_no_notice(string payload) => RecordNotice.Read(payload).ShouldBeNull();

    [Fact]
    public void A_page_hears_of_its_own_site_alone_and_not_once_it_is_left()
    {
        SiteChanges changes = new();
        int heard = 0;
        IDisposable subscription = changes.Subscribe(3, () => heard++);

        changes.Pass(new RecordNotice(4, 1));
        heard.ShouldBe(0);
        changes.Pass(new RecordNotice(3, 2));
        heard.ShouldBe(1);

        subscription.Dispose();
        changes.Pass(new RecordNotice(3, 3));
        heard.ShouldBe(1);
        changes.Count.ShouldBe(0);
    }
}
