using System.Text.Json;
using Shouldly;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.SetUps;
using SiteProgress.Jobs.Planning;
using SiteProgress.Web.Planning;
using Xunit;

namespace SiteProgress.Web.Tests.Planning;

/// <summary>A plan for a barge as GeoJSON. What a polygon, a line and a position are: RFC 7946, section 3.1.</summary>
public sealed class PlanFeaturesTests
{
    [Fact]
    public void Reaches_come_first_in_order_then_the_way_then_the_set_ups_with_number_heading_and_piles()
    {
        JsonElement features = Read(Answer());

        features.EnumerateArray().Select(one => $"{one.GetProperty("geometry").GetProperty("type")} {Property(one, "kind")} {Property(one, "name")}").ShouldBe(
        [
            "Polygon plan-anchors anchors 1", "Polygon plan-anchors anchors 2", "LineString plan-way ",
            "Point plan-set-up 1", "Point plan-set-up 2", "Point plan-set-up 3",
        ]);
        JsonElement third = features[5].GetProperty("properties");
        (third.GetProperty("anchors").GetInt32(), third.GetProperty("setUp").GetInt32(), third.GetProperty("heading").GetDouble()).ShouldBe((2, 3, 90));
        third.GetProperty("piles").EnumerateArray().Select(one => one.GetString()).ShouldBe(["A-5", "A-6"]);
    }

    [Fact]
    public void Positions_are_longitude_before_latitude_and_a_ring_ends_where_it_began()
    {
        JsonElement features = Read(Answer());

        Positions(features[0].GetProperty("geometry").GetProperty("coordinates")[0]).ShouldBe([[141, 43], [141.1, 43], [141.1, 43.1], [141, 43.1], [141, 43]]);
        Positions(features[2].GetProperty("geometry").GetProperty("coordinates")).ShouldBe([[141.3, 43.51], [141.3, 43.52], [141.3, 43.53]]);
    }

    [Fact]
    public void A_site_grid_without_a_place_on_the_earth_has_no_features()
        => PlanFeatures.Of(Answer() with { Geographic = [], AnchorCorners = [] }).Features.ShouldBeEmpty();

    private static JsonElement Read(PlanBarge.Answer answer)
        => JsonSerializer.SerializeToElement(PlanFeatures.Of(answer), JsonSerializerOptions.Web).GetProperty("features");

    private static string? Property(JsonElement feature, string name) => feature.GetProperty("properties").GetProperty(name).GetString();

    private static double[][] Positions(JsonElement list) => [.. list.EnumerateArray().Select(one => one.EnumerateArray().Select(number => number.GetDouble()).ToArray())];

    private static PlanBarge.Answer Answer()
    {
        PlannedSetUp SetUp(int number, double heading, params string[] piles) => new(number, heading, default, default, [.. piles.Select((pile, place) => new CasingBuilds(place + 1, pile))]);
        BargePlanResult plan = new(
            [
                new(1, default, default, [SetUp(1, 0, "A-1", "A-2"), SetUp(2, 0, "A-3", "A-4")]),
                new(2, default, default, [SetUp(3, 90, "A-5", "A-6")]),
            ],
            new(default, default, 0, 0), default, [], []);
        GeographicCoordinate[] corners = [new(43, 141), new(43, 141.1), new(43.1, 141.1), new(43.1, 141)];
        return new(1, "Asia/Tokyo", ["Tern"], ["A"], new(), null, [], plan, [new(43.51, 141.3), new(43.52, 141.3), new(43.53, 141.3)], [corners, corners]);
    }
}
