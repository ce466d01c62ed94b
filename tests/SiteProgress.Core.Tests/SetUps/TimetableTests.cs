using NodaTime;
using Shouldly;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Levels;
using SiteProgress.Core.Piles;
using SiteProgress.Core.SetUps;
using Xunit;

namespace SiteProgress.Core.Tests.SetUps;

/// <summary>Dates of small plans, against every order tried out by a walk through time in steps of ten minutes.</summary>
public sealed class TimetableTests
{
    private static readonly Instant Begin = Instant.FromUtc(2026, 6, 1, 4, 0);
    private static readonly OpenTimes Month = OpenTimes.Of([new Interval(Begin, Begin + Duration.FromDays(30))]);
    private static readonly TidePrediction Tide = TidePrediction.Of([.. Enumerable.Range(0, 144 * 40).Select(step => Begin - Duration.FromDays(40) + Duration.FromMinutes(10 * step)).Select(at => (at, Level(at)))])!;

    [Fact]
    public void Without_anything_to_wait_for_one_thing_follows_the_other()
    {
        (IReadOnlyList<PlannedAnchor> anchors, PlanTimetable timetable) = Timetable.Of(Request(new(Begin, Zones(Month, Month))), [Anchor(1, 1), Anchor(2, 2)]);

        anchors.Select(one => one.Laid!.Begins).ShouldBe([Begin, Begin + Duration.FromHours(6)]);
        anchors[1].SetUps[0].Time!.Begins.ShouldBe(Begin + Duration.FromHours(10));
        timetable.Ends.ShouldBe(Begin + Duration.FromHours(14));
        (timetable.WaitHours, timetable.NotDated).ShouldBe((0, 0));
    }

    [Fact]
    public void Anchors_wait_for_slack_water_and_say_so()
    {
        OpenTimes slack = OpenTimes.Of([Span(3, 6), Span(9, 14), Span(20, 24)]);
        PlanConditions conditions = new(Begin, Zones(Month, Month), Anchors: slack);

        // Four hours of laying fit into no window before the one that begins after nine hours.
        PlannedTime whole = Timetable.Of(Request(conditions), [Anchor(1, 1)]).Anchors[0].Laid!;
        PlannedTime begun = Timetable.Of(Request(conditions with { InWindow = Duration.FromHours(1) }), [Anchor(1, 1)]).Anchors[0].Laid!;

        (whole.Begins, whole.WaitHours, whole.WaitsFor).ShouldBe((At(9), 9, "slack water"));
        (begun.Begins, begun.Ends, begun.WaitHours).ShouldBe((At(3), At(7), 3));
    }

    [Fact]
    public void A_rest_day_is_no_waiting_and_work_that_does_not_fit_before_it_comes_after_it()
    {
        OpenTimes week = OpenTimes.Of([Span(0, 5), Span(29, 200)]);

        PlannedAnchor anchor = Timetable.Of(Request(new(Begin, Zones(week, week))), [Anchor(1, 1)]).Anchors[0];

        anchor.Laid!.Begins.ShouldBe(At(0));
        (anchor.SetUps[0].Time!.Begins, anchor.SetUps[0].Time!.WaitHours).ShouldBe((At(29), 1));
    }

    [Fact]
    public void A_closed_zone_is_built_later_and_a_zone_that_never_opens_is_not_dated()
    {
        OpenTimes later = OpenTimes.Of([Span(40, 200)]);

        (IReadOnlyList<PlannedAnchor> anchors, PlanTimetable timetable) = Timetable.Of(Request(new(Begin, Zones(later, Month))), [Anchor(1, 1, "A"), Anchor(2, 3, "B")]);
        anchors.Select(one => one.SetUps[0].Builds[0].Pile).ShouldBe(["B-2-0", "A-1-0"]);
        anchors.SelectMany(one => one.SetUps).Select(one => one.Number).ShouldBe([1, 2, 3, 4]);
        timetable.Ends.ShouldBe(At(46));

        (anchors, timetable) = Timetable.Of(Request(new(Begin, Zones(OpenTimes.Of([]), Month))), [Anchor(1, 1, "A"), Anchor(2, 3, "B")]);
        timetable.NotDated.ShouldBe(1);
        anchors.SelectMany(one => one.SetUps).Single(one => one.Time is null).NotDated.ShouldBe("no time for laying the anchors: no working time is left that is long enough");
    }

    [Fact]
    public void Room_under_the_keel_waits_for_the_tide_is_told_impossible_or_unknown_but_never_taken_for_enough()
    {
        // Low water at the site is about -1, high water about +1; two hours need some 0.87 at most.
        PlannedSetUp Of(double? seabed, TidePrediction? tide) => Timetable.Of(
            Request(new(Begin, Zones(Month, Month), Keel: new KeelWater(3, 1, tide, Begin, Begin + Duration.FromDays(30), (_, _, _) => seabed is { } level ? new SeabedBelow(level, "stated for the zone") : null))),
            [Anchor(1, 1)]).Anchors[0].SetUps[0];

        PlannedSetUp deep = Of(-9, Tide), shallow = Of(-3.5, Tide), dry = Of(-2, Tide), unknown = Of(null, Tide), noTide = Of(-9, null);

        (deep.Time!.Begins, deep.Time.WaitHours).ShouldBe((At(4), 0));
        deep.Keel!.LeastRoomMetres!.Value.ShouldBeGreaterThan(4.9);
        shallow.Time!.WaitsFor.ShouldBe("the tide");
        shallow.Keel!.NeedsLevelMetres.ShouldBe(0.5);
        shallow.Keel.LeastRoomMetres!.Value.ShouldBeGreaterThanOrEqualTo(1 - 1e-9);
        for (Instant at = shallow.Time.Begins; at <= shallow.Time.Ends; at += Duration.FromMinutes(5)) Level(at).ShouldBeGreaterThan(0.49);
        dry.Time.ShouldBeNull();
        dry.NotDated!.ShouldStartWith("not water enough at any tide looked at: it needs a water level of 2.00 m for so long");
        (unknown.Time is not null, unknown.Keel!.LeastRoomMetres, unknown.Keel.From).ShouldBe((true, null, "the seabed here is not known"));
        (noTide.Keel!.LeastRoomMetres, noTide.Keel.From).ShouldBe((null, "stated for the zone; the tide is not known"));
    }

    [Fact]
    public void Casings_are_set_to_another_spacing_before_the_anchors_of_its_stretch_are_laid()
    {
        BargePlanRequest request = Request(new(Begin, Zones(Month, Month))) with { Spacings = new([2, 4], 8) };

        (IReadOnlyList<PlannedAnchor> anchors, PlanTimetable timetable) = Timetable.Of(request, [Anchor(1, 1) with { SpacingMetres = 2 }, Anchor(2, 1) with { SpacingMetres = 4 }, Anchor(3, 1) with { SpacingMetres = 4 }]);

        anchors.Select(one => one.Changed?.Begins).ShouldBe([null, At(6), null]);
        (anchors[1].Laid!.Begins, timetable.ChangeHours).ShouldBe((At(14), 8));
    }

    [Fact]
    public void Set_ups_of_small_layings_end_as_soon_as_the_best_of_all_orders()
    {
        Random chance = new(41);
        for (int round = 0; round < 12; round++)
        {
            // Every set-up has a seabed of its own, so that each waits for another stand of the tide; windows of slack water cut in.
            double[] seabeds = [.. Enumerable.Range(0, 5).Select(_ => Math.Round(-6 + (2.7 * chance.NextDouble()), 2))];
            OpenTimes? slack = round % 2 == 0 ? null : OpenTimes.Of(Enumerable.Range(0, 40).Select(one => Span((one * 6.2) + chance.NextDouble(), (one * 6.2) + 2.5 + chance.NextDouble())));
            KeelWater keel = new(3, 1, Tide, Begin, Begin + Duration.FromDays(30), (_, at, _) => new SeabedBelow(seabeds[(int)at.XMetres], "stated"));
            PlanConditions conditions = new(Begin, Zones(Month, Month), SetUps: slack, InWindow: Duration.FromMinutes(30), Keel: keel);

            (IReadOnlyList<PlannedAnchor> anchors, PlanTimetable timetable) = Timetable.Of(Request(conditions), [Anchor(1, 5)]);

            timetable.NotDated.ShouldBe(0);
            Instant soonest = Orders(5).Min(order => order.Aggregate(At(4), (at, one) => Walk(at, seabeds[one] + 4, slack, keel)));
            (timetable.Ends!.Value - soonest).TotalMinutes.ShouldBeInRange(-0.001, 0.001);
            foreach (PlannedSetUp one in anchors[0].SetUps) one.Keel!.LeastRoomMetres!.Value.ShouldBeGreaterThanOrEqualTo(1 - 1e-9);
        }
    }

    [Fact]
    public void Layings_of_small_plans_end_as_soon_as_the_best_of_all_orders_of_them()
    {
        Random chance = new(43);
        for (int round = 0; round < 10; round++)
        {
            OpenTimes[] open = [.. Enumerable.Range(0, 4).Select(_ => OpenTimes.Of(Enumerable.Range(0, 8).Select(day => Span((day * 24) + (12 * chance.NextDouble()), (day * 24) + 14 + (8 * chance.NextDouble())))))];
            PlanConditions conditions = new(Begin, Enumerable.Range(0, 4).ToDictionary(zone => $"{zone}", zone => open[zone]));

            PlanTimetable timetable = Timetable.Of(Request(conditions, Enumerable.Range(0, 4).Select(zone => $"{zone}")), [.. Enumerable.Range(0, 4).Select(zone => Anchor(zone + 1, 1 + (zone % 2), $"{zone}"))]).Timetable;

            timetable.NotDated.ShouldBe(0);
            Instant soonest = Orders(4).Min(order => order.Aggregate(Begin, (at, zone) =>
            {
                at = Fits(at, Duration.FromHours(4), open[zone]);
                for (int one = 0; one <= zone % 2; one++) at = Fits(at, Duration.FromHours(2), open[zone]);
                return at;
            }));
            timetable.Ends.ShouldBe(soonest);
        }

        // A span fits where it lies in one opening: tried opening by opening.
        static Instant Fits(Instant at, Duration length, OpenTimes open)
            => open.Spans.Where(span => span.End - Instant.Max(at, span.Start) >= length).Min(span => Instant.Max(at, span.Start)) + length;
    }

    /// <summary>The end of a set-up of two hours from a moment on, by trying every candidate beginning in turn.</summary>
    private static Instant Walk(Instant at, double needs, OpenTimes? slack, KeelWater keel)
    {
        Instant[] begins = [.. keel.Enough(needs).Spans.Select(span => span.Start).Concat(slack?.Spans.Select(span => span.Start) ?? []).Append(at).Where(one => one >= at).Order()];
        return begins.First(begin => Lies(keel.Enough(needs), begin, 120) && (slack is null || Lies(slack, begin, 30))) + Duration.FromHours(2);
    }

    private static bool Lies(OpenTimes open, Instant begin, int minutes) => open.Spans.Any(span => span.Start <= begin && begin + Duration.FromMinutes(minutes) <= span.End);

    private static IEnumerable<int[]> Orders(int count)
        => count == 0 ? [[]] : Orders(count - 1).SelectMany(order => Enumerable.Range(0, count).Select(place => (int[])[.. order[..place], count - 1, .. order[place..]]));

    private static double Level(Instant at) => Math.Cos((at - Begin).TotalHours * 28.9841042 * Math.PI / 180);

    private static Instant At(double hours) => Begin + Duration.FromHours(hours);

    private static Interval Span(double from, double to) => new(At(from), At(to));

    private static Dictionary<string, OpenTimes> Zones(OpenTimes a, OpenTimes b) => new() { ["A"] = a, ["B"] = b };

    /// <summary>Four hours for the anchors, two for a set-up.</summary>
    private static BargePlanRequest Request(PlanConditions conditions, IEnumerable<string>? zones = null) => new(
        new Barge("Tern", [new Casing(1, 1.2, 1.3, 25, 0), new Casing(2, 1.2, 1.3, 25, 2)], new Hull(40, 20)),
        [.. (zones ?? ["A", "B"]).SelectMany(zone => Enumerable.Range(1, 4).SelectMany(anchor => Enumerable.Range(0, 5).Select(one => new OpenPile($"{zone}-{anchor}-{one}", new(one, anchor), zone))))],
        [0], 0.05, new AnchorReach(38, 9), null, 4, 120, [], 10, [], null, conditions);

    private static PlannedAnchor Anchor(int number, int setUps, string zone = "A") => new(
        number, new(0, 0), new(38, 9), [.. Enumerable.Range(0, setUps).Select(one => new PlannedSetUp(one + 1, 0, new(one, number), new(one, number), [new CasingBuilds(1, $"{zone}-{number}-{one}")]))]);
}
