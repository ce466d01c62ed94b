using NodaTime;
using Shouldly;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;
using Xunit;

namespace SiteProgress.Core.Tests.Progress;

/// <summary>Sand by source, and the C it shows.</summary>
public sealed class SandOfSourceTests
{
    // Worked from the mass balance: a fall of 2.8 m in a casing of 1.2 m is 3.1667 m³ and with C = 1 makes 2.0080 m of diameter over 1 m;
    // so a design of 2.0 m is met with C = (2.0 / 2.0080)² = 0.99205.
    [Fact]
    public void C_observed_is_the_one_that_makes_just_the_design()
        => One(new SandFigures(3.1667, 3.1667, 3.1667 * 0.85, Math.PI, 0.85, "Pit 1", null)).ShouldSatisfyAllConditions(
            one => one.ObservedFactor!.Value.ShouldBe(0.99205, 5e-5),
            one => one.OfDesignRatio!.Value.ShouldBe(0.85 / 0.99205, 5e-5));

    [Fact]
    public void Without_sand_or_length_nothing_is_observed_and_it_is_counted()
    {
        SandOfSource one = One(new SandFigures(null, null, null, 3, 0.85, "Pit 1", "missing"));

        (one.Piles, one.WithoutSand, one.ObservedFactor, one.OfDesignRatio).ShouldBe((0, 1, null, null));
    }

    [Fact]
    public void A_source_that_only_deliveries_name_is_shown_without_a_C()
    {
        SandOfSource[] sources = [.. SandOfSource.Of(Invented.Settings, [], [Line("Pit 9", SandEntry.Delivered, 100), Line("pit 9", SandEntry.Wasted, 4), Line("Pit 9", SandEntry.StockMeasured, 50)])];

        SandOfSource other = sources.Single(source => source.Source == "Pit 9");
        (other.ApprovedFactor, other.DeliveredCubicMetres, other.WastedCubicMetres).ShouldBe((null, 100, 4));
        sources.Length.ShouldBe(Invented.Settings.SandSources.Count + 1);
    }

    private static SandOfSource One(SandFigures sand)
    {
        PlannedPile pile = Invented.Planned("A-1", 0, 0);
        PileJudgement judged = PileJudge.Judge(pile, [Invented.Located(Invented.Built("A-1", 0, 0))], Invented.Contract());
        return SandOfSource.Of(Invented.Settings, [judged with { Sand = sand }], []).Single(source => source.Source == "Pit 1");
    }

    private static SandDelivery Line(string source, SandEntry entry, double volume) => new(null, Instant.FromUtc(2026, 3, 1, 0, 0), entry, source, "Tern", volume, null);
}
