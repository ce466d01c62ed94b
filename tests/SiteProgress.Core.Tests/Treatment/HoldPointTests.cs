using NodaTime;
using Shouldly;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Core.Treatment;
using Xunit;

namespace SiteProgress.Core.Tests.Treatment;

public sealed class HoldPointTests
{
    private readonly RecordedSite _site = new();

    public HoldPointTests() => _site.Plan("A-0001", "A-0002", "A-0003");

    [Fact]
    public void The_other_piles_of_a_zone_wait_until_its_first_piles_are_released()
    {
        Set(HoldPointKind.FirstPiles, ["A-0001"], zone: "A");
        _site.Build("A-0001");

        _site.Treated.Find("A-0001")!.HeldBy.ShouldBeNull();
        _site.Treated.Find("A-0002")!.HeldBy.ShouldBe(1);
        _site.Treated.HoldPoints[0].PilesWaiting.ShouldBe(2);

        Sign(asSurveyor: false);

        _site.Treated.HoldPoints[0].IsOpen().ShouldBeFalse();
        _site.Treated.Find("A-0002")!.HeldBy.ShouldBeNull();
    }

    [Fact]
    public void A_pile_built_while_it_should_have_waited_says_so_and_cannot_be_accepted_before_the_release()
    {
        Set(HoldPointKind.FirstPiles, ["A-0001"], zone: "A");
        _site.Build("A-0002");

        _site.Treated.Find("A-0002")!.BuiltWhileHeld.ShouldBe(1);
        _site.Treated.ReadinessOf("A-0002").Reason.ShouldBe("Hold point 1 is not released.");
        _site.Treated.SheetOf("A-0002")!.Lines.ShouldContain(line => line.Label == "built while hold point waited");
    }

    [Fact]
    public void Before_the_anchors_lift_surveyor_and_owners_representative_sign_the_same_sheet()
    {
        Set(HoldPointKind.BeforeAnchorsLift, ["A-0001"], barge: "Tern");
        _site.Build("A-0001");
        Sign(asSurveyor: true);
        _site.Treated.HoldPoints[0].IsOpen().ShouldBeTrue();

        // Another installation changes the sheet, so the surveyor's signature is on what no longer stands.
        _site.Build("A-0001", 0.2);
        Sign(asSurveyor: false);
        _site.Treated.HoldPoints[0].IsOpen().ShouldBeTrue();

        Sign(asSurveyor: true);
        _site.Treated.HoldPoints[0].IsOpen().ShouldBeFalse();
    }

    [Fact]
    public void A_hold_point_that_is_withdrawn_stops_nothing()
    {
        Set(HoldPointKind.OfTheSite, [], waiting: ["A-0003"]);
        _site.Treated.Find("A-0003")!.HeldBy.ShouldBe(1);
        _site.Add(new HoldPointWithdrawnBody(1, "set twice"));

        _site.Treated.Find("A-0003")!.HeldBy.ShouldBeNull();
    }

    private void Set(HoldPointKind kind, string[] shown, string[]? waiting = null, string? zone = null, string? barge = null)
        => _site.Add(new HoldPointSetBody(_site.Treated.HoldPoints.Count + 1, kind, "first piles", "clause 7", shown, waiting ?? [], zone, barge));

    private void Sign(bool asSurveyor)
        => _site.Add(new HoldPointSignedBody(1, asSurveyor, "", TreatmentSheets.Of(_site.Treated.HoldPoints[0], _site.Treated).Hash), asSurveyor ? "account surveyor" : "account owner");
}
