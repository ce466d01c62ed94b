using NodaTime;
using Shouldly;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;
using Xunit;

namespace SiteProgress.Core.Tests.Progress;

/// <summary>Opening stock + deliveries - losses - closing stock is what the piles used; worked out by hand.</summary>
public sealed class SandAccountTests
{
    private static readonly Instant Monday = Instant.FromUtc(2026, 3, 9, 5, 0);

    [Fact]
    public void A_week_balances_from_one_stock_to_the_next()
    {
        SandPeriod week = SandAccount.Of(
            [Stock(0, 400), Load(1, 500), Load(4, 450), Line(5, SandEntry.Wasted, 6), Stock(7, 344)],
            [Use(2, 480), Use(6, 520), Use(8, 70)],
            0.04).ShouldHaveSingleItem();

        // 400 + 950 - 6 - 344 = 1000; the record of the eighth day belongs to the next week.
        (week.ByAccountCubicMetres, week.ByRecordsCubicMetres, week.DifferenceCubicMetres, week.DifferenceRatio, week.OverLimit).ShouldBe((1000, 1000, 0, 0, false));
    }

    [Theory]
    [InlineData(1040, false)] // 40 of 1040 is 3.8 %
    [InlineData(1050, true)] // 50 of 1050 is 4.8 %
    [InlineData(950, true)] // 50 of 950 is 5.3 %, sand is missing
    public void A_difference_over_the_limit_either_way_is_a_finding(double used, bool over)
        => SandAccount.Of([Stock(0, 100), Load(1, 1000), Stock(7, 100)], [Use(2, used)], 0.04).ShouldHaveSingleItem().OverLimit.ShouldBe(over);

    [Fact]
    public void Sand_that_went_into_no_pile_is_a_finding_and_without_a_limit_nothing_is()
    {
        SandAccount.Of([Stock(0, 100), Load(1, 1000), Stock(7, 100)], [], 0.04).ShouldHaveSingleItem().OverLimit.ShouldBeTrue();
        SandAccount.Of([Stock(0, 865), Stock(7, 860)], [], 0.04).ShouldHaveSingleItem().OverLimit.ShouldBeFalse();
        SandAccount.Of([Stock(0, 100), Load(1, 1000), Stock(7, 100)], [], null).ShouldHaveSingleItem().OverLimit.ShouldBeFalse();
    }

    [Fact]
    public void A_log_stands_in_the_place_of_its_record_in_a_figure_of_its_own()
    {
        SandPeriod week = SandAccount.Of([Stock(0, 0), Load(1, 130), Stock(7, 0)], [Use(2, 60), Use(3, 65) with { LogCubicMetres = 70 }], 0.04).ShouldHaveSingleItem();

        (week.ByRecordsCubicMetres, week.ByLogsCubicMetres, week.Installations, week.WithLog).ShouldBe((125, 130, 2, 1));
    }

    [Fact]
    public void Barges_are_taken_together_where_a_stock_is_the_whole_sites_and_apart_where_it_is_theirs()
    {
        SandPeriod site = SandAccount.Of(
            [Stock(0, 100) with { Barge = null }, Load(1, 300), Load(2, 200) with { Barge = "Plover" }, Stock(7, 80) with { Barge = null }],
            [Use(3, 320), Use(3, 200) with { Barge = "Plover" }], 0.04).ShouldHaveSingleItem();
        (site.Barge, site.ByAccountCubicMetres, site.ByRecordsCubicMetres).ShouldBe(("", 520, 520));

        SandAccount.Of([Stock(0, 0), Stock(7, 0), Stock(0, 5) with { Barge = "Plover" }, Stock(7, 5) with { Barge = "Plover" }], [], null)
            .Select(period => period.Barge).ShouldBe(["Plover", "Tern"]);
    }

    [Fact]
    public void One_stock_makes_no_account() => SandAccount.Of([Stock(0, 100), Load(1, 300)], [Use(2, 300)], 0.04).ShouldBeEmpty();

    private static SandDelivery Stock(int day, double cubicMetres) => Line(day, SandEntry.StockMeasured, cubicMetres);

    private static SandDelivery Load(int day, double cubicMetres) => Line(day, SandEntry.Delivered, cubicMetres);

    private static SandDelivery Line(int day, SandEntry entry, double cubicMetres) => new(null, Monday + Duration.FromDays(day), entry, "Long Shoal", "Tern", cubicMetres, null);

    private static SandUse Use(int day, double cubicMetres) => new(Monday + Duration.FromDays(day), "Tern", "Long Shoal", cubicMetres, null);
}
