using NodaTime;
using Shouldly;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Records;
using SiteProgress.Core.Tests.Treatment;
using Xunit;

namespace SiteProgress.Core.Tests.Coordinates;

/// <summary>A record keeps the adjustment it was made with (invented site).</summary>
public sealed class AdjustmentOfRecordTests
{
    [Fact]
    public void A_later_adjustment_does_not_move_what_is_built_and_moves_the_design()
    {
        RecordedSite site = new();
        site.Plan("A-0001");
        site.Build("A-0001", offMetres: 0.03);
        DerivedPile before = site.Derived.Piles.Single();

        site.Adopt(new ProjectedCoordinate(390000.5, 6161000.25));

        DerivedPile after = site.Derived.Piles.Single();
        after.AsBuilt.ShouldBe(before.AsBuilt);
        (after.Projected.EastingMetres - before.Projected.EastingMetres).ShouldBe(0.5, 1e-6);
        (after.Projected.NorthingMetres - before.Projected.NorthingMetres).ShouldBe(0.25, 1e-6);
        after.Judgement.Position!.Deviation.RadialMetres.ShouldBe(before.Judgement.Position!.Deviation.RadialMetres, 1e-9);
        site.Derived.Installations.Single().Projected.ShouldBe(before.AsBuilt);
    }

    [Fact]
    public void The_code_of_a_pasted_definition_is_none()
    {
        RecordedSite site = new();
        site.Derived.History.ProjectedCrsCode.ShouldBe(25832);

        site.Adopt(new ProjectedCoordinate(390000, 6161000), epsg: 0);

        site.Derived.History.ProjectedCrsCode.ShouldBeNull();
    }
}
