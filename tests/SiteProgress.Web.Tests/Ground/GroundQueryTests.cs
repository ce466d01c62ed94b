using Shouldly;
using SiteProgress.Jobs.Ground;
using SiteProgress.Web.Ground;
using Xunit;

namespace SiteProgress.Web.Tests.Ground;

/// <summary>What an address asks of the ground.</summary>
public sealed class GroundQueryTests
{
    [Fact]
    public void An_address_is_read_and_written_again()
    {
        GroundQuery query = new("97.5", "4", "1.5", "2026-02-24 Before the piles", null, "8.5", "12", "A-0500");

        query.Request.ShouldBe(new GroundRequest(0.975, 4, 1.5, "2026-02-24 Before the piles", null, 8.5, 12, "A-0500"));
        query.Misunderstood.ShouldBeEmpty();
        query.Address("sandlark").ToString().ShouldBe("/sites/sandlark/ground?share=97.5&square=4&step=1.5&before=2026-02-24%20Before%20the%20piles&weight=8.5&fines=12&around=A-0500");
    }

    [Theory]
    [InlineData("x", null, null, null, null, "share")]
    [InlineData("0", null, null, null, null, "share")]
    [InlineData("NaN", null, null, null, null, "share")]
    [InlineData("1e400", null, null, null, null, "share")]
    [InlineData(null, "0.1", null, null, null, "square")]
    [InlineData(null, "-5", null, null, null, "square")]
    [InlineData(null, null, "0", null, null, "step")]
    [InlineData(null, null, null, "9,5", null, "weight")]
    [InlineData(null, null, null, "Infinity", null, "weight")]
    [InlineData(null, null, null, null, "101", "fines")]
    [InlineData(null, null, null, null, "0", "fines")]
    public void What_cannot_be_meant_is_told_and_the_usual_is_asked(string? share, string? square, string? step, string? weight, string? fines, string told)
    {
        GroundQuery query = new(share, square, step, null, null, weight, fines, null);

        query.Misunderstood.ShouldHaveSingleItem().ShouldStartWith(told + ": ");
        query.Refusal.ShouldNotBeNull();
        query.Request.ShouldBe(new GroundRequest());
    }
}
