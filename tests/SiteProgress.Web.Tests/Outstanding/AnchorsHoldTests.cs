using Bunit;
using NodaTime;
using Shouldly;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Core.Treatment;
using SiteProgress.Jobs.Outstanding;
using SiteProgress.Jobs.Treatment;
using SiteProgress.Web.Outstanding;
using Xunit;

namespace SiteProgress.Web.Tests.Outstanding;

/// <summary>The hold point of a barge's anchors on the page of what is left behind it.</summary>
public sealed class AnchorsHoldTests : BunitContext
{
    private static readonly Instant Morning = Instant.FromUtc(2026, 5, 4, 6, 0);

    private KeepHoldPoints.Setting? set;
    private string? signed;
    private string? released;

    [Fact]
    public void What_is_set_names_the_barge_and_the_piles_that_are_apart_or_undecided_but_not_those_nobody_has_begun()
    {
        IRenderedComponent<AnchorsHold> shown = Draw([], raise: true);
        shown.Find("textarea").Input("clause 7");

        shown.Find("form").Submit();

        KeepHoldPoints.Setting asked = set.ShouldNotBeNull();
        (asked.Kind, asked.Barge, asked.Clause, asked.Zone).ShouldBe((HoldPointKind.BeforeAnchorsLift, "Plover", "clause 7", null));
        asked.Shown.ShouldBe(["A-0002", "A-0004", "A-0005"]);
        asked.Waiting.ShouldBeEmpty();
    }

    [Fact]
    public void Surveyor_and_owners_representative_each_have_their_own_button_and_only_it()
    {
        HoldPoint point = Point(1, "Plover");

        IRenderedComponent<AnchorsHold> surveyor = Draw([point], survey: true);
        surveyor.Find("form button").TextContent.ShouldBe("Sign as surveyor");
        surveyor.FindAll("form").Count.ShouldBe(1);
        surveyor.Find("textarea").Input("seen");
        surveyor.Find("form").Submit();
        IRenderedComponent<AnchorsHold> owner = Draw([point], decide: true);
        owner.Find("form button").TextContent.ShouldBe("Sign for the owner");
        owner.Find("form").Submit();

        (signed, released).ShouldBe(("1 seen", "1 "));
    }

    [Fact]
    public void Who_has_signed_is_not_asked_again_and_the_other_is_named()
    {
        HoldPoint point = Point(1, "Plover", new TreatmentStep(8, Morning, "somebody", RecordKind.HoldPointSigned, true, "", null));

        IRenderedComponent<AnchorsHold> shown = Draw([point], survey: true);

        shown.FindAll("form").ShouldBeEmpty();
        shown.Find("strong").TextContent.ShouldBe("waits for the owner's representative");
    }

    [Fact]
    public void A_hold_point_of_another_barge_and_a_released_one_do_not_keep_these_anchors()
    {
        IRenderedComponent<AnchorsHold> shown = Draw([Point(1, "Tern"), Point(2, "Plover") with { ReleasedAt = Morning }]);

        shown.FindAll("article").ShouldBeEmpty();
        shown.Find("p").TextContent.ShouldContain("Hold point 2 was released");
    }

    private IRenderedComponent<AnchorsHold> Draw(HoldPoint[] points, bool raise = false, bool survey = false, bool decide = false) => Render<AnchorsHold>(with => with
        .Add(one => one.Site, "x").Add(one => one.Behind, Behind).Add(one => one.List, List(points))
        .Add(one => one.MayRaise, raise).Add(one => one.MaySurvey, survey).Add(one => one.MayDecide, decide)
        .Add(one => one.OnSet, setting => { set = setting; return Task.FromResult(true); })
        .Add(one => one.OnSigned, (one, note) => { signed = $"{one.Point.Number} {note}"; return Task.FromResult(true); })
        .Add(one => one.OnReleased, (one, note) => { released = $"{one.Point.Number} {note}"; return Task.FromResult(true); }));

    private static ReadBehindBarge.Answer Behind => new(
        9, "Europe/Copenhagen", ["Tern", "Plover"], "Plover", 60, new(0, 0, "A-0009", null, new DateTime(2026, 5, 4, 5, 0, 0, DateTimeKind.Utc)),
        [
            new("A-0002", "A", OutstandingKind.Gap, 4, false), new("A-0003", "A", OutstandingKind.NotAttempted, 5, false),
            new("A-0004", "A", OutstandingKind.NotAttempted, 40, true),
        ],
        [new("A-0005", "A", PileState.Finding, "Position", 3)], 12);

    private static ReadHoldPoints.List List(HoldPoint[] points) => new(
        [.. points.Select(point => new ReadHoldPoints.One(point, new Sheet($"Hold point {point.Number}", []), "hash"))], ["A"], ["Tern", "Plover"], new Dictionary<string, string>(), "Europe/Copenhagen", 9);

    private static HoldPoint Point(int number, string barge, params TreatmentStep[] more) => new(
        number, HoldPointKind.BeforeAnchorsLift, "before the next position", "clause 7", [], [], null, barge, null, false, 0,
        [new TreatmentStep(7, Morning, "somebody", RecordKind.HoldPointSet, null, "before the next position", "clause 7"), .. more]);
}
