using NodaTime;
using Shouldly;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Piles;
using SiteProgress.Web.Piles;
using Xunit;

namespace SiteProgress.Web.Tests.Piles;

public sealed class PileQueryTests
{
    [Fact]
    public void What_an_address_says_it_says_again()
    {
        string address = "?number=A-00&zone=A&zone=C&state=finding&state=accepted-concession&barge=Tern&day=2026-03-10&finding=position&sort=radial&order=descending";

        PileQuery query = PileQuery.Read(address);

        query.Filter.Zones.ShouldBe(["A", "C"]);
        query.Filter.States.ShouldBe([PileState.Finding, PileState.AcceptedWithConcession]);
        query.Filter.Day.ShouldBe(new LocalDate(2026, 3, 10));
        query.Filter.Finding.ShouldBe(CheckName.Position);
        query.Order.ShouldBe(PileOrder.Radial);
        query.Text().ShouldBe(address);
    }

    [Theory]
    [InlineData("")]
    [InlineData("?state=nothing&day=yesterday&sort=7&finding=3&number=%20")]
    public void Words_that_mean_nothing_leave_all_piles_in_order_of_number(string address)
    {
        PileQuery query = PileQuery.Read(address);

        query.Narrows.ShouldBeFalse();
        query.Text().ShouldBe("");
    }

    [Fact]
    public void The_same_column_again_turns_the_order_round()
        => PileQuery.Read("").By(PileOrder.Sand).By(PileOrder.Sand).Descending.ShouldBeTrue();

    [Fact]
    public void A_word_chosen_twice_is_not_chosen()
        => PileQuery.Toggle(PileQuery.Toggle<string>([], "A"), "A").ShouldBeEmpty();
}
