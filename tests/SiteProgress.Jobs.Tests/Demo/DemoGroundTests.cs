using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using Shouldly;
using SiteProgress.Core.Ground;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Ground;
using Xunit;

namespace SiteProgress.Jobs.Tests.Demo;

/// <summary>The ground of the demo against the truth its generator states, and against plain SQL over the derived piles.</summary>
[Collection(DemoCollection.Name)]
public sealed class DemoGroundTests(DemoSite demo)
{
    [Fact]
    public async Task Heave_by_sand_is_what_came_up_less_what_lies_outside_the_zone()
    {
        GroundView view = await ReadAsync(new GroundRequest());

        foreach (JsonElement truth in Truth().GetProperty("zones").EnumerateArray())
        {
            ZoneHeave zone = view.Heave!.Zones.Single(one => one.Zone == truth.GetProperty("zone").GetString());
            double sand = truth.GetProperty("sandInPile").GetDouble(), ratio = truth.GetProperty("heaveBySand").GetDouble();
            zone.Review.CoveredRatio.ShouldBeGreaterThan(0.95);
            zone.SandInPile.ShouldBe(sand, 0.02 * sand);

            // A bell of six metres about each pile leaves at most a fifth of it outside a zone sixty metres wide and built in blocks.
            zone.Review.VolumeCubicMetres.ShouldBeInRange(0.8 * ratio * sand, 1.01 * ratio * sand);
        }
    }

    [Fact]
    public async Task The_surveys_are_one_each_although_their_frames_differ()
    {
        GroundView view = await ReadAsync(new GroundRequest());

        view.Surveys.Select(survey => (survey.Key, survey.Soundings)).ShouldBe([("2026-02-24 Before the piles", 5841), ("2026-05-23 After twelve weeks", 5841)]);
    }

    [Fact]
    public async Task The_test_in_weaker_ground_is_the_only_one_below_the_contract_between_the_piles()
    {
        GroundView view = await ReadAsync(new GroundRequest());

        // The shallowest tests stand above the tops of the piles, about -13 m; below them the contract asks N 15.
        TestBesidePile[] low = [.. view.Blows.Tests.Where(one => one is { Moment: TestMoment.After, Test: { LevelMetres: < -14 and > -28, Test.Blows: < 15 } })];
        PlacedTest weak = low.ShouldHaveSingleItem().Test;
        weak.Test.Location.ShouldBe("PB-2");
        weak.LevelMetres!.Value.ShouldBe(Truth().GetProperty("weakTest").GetProperty("levelMetres").GetDouble(), 0.8);
        view.Blows.Tests.Where(one => one.Test.Test.Location.StartsWith("BH", StringComparison.Ordinal)).ShouldAllBe(one => one.Moment == TestMoment.Before);
    }

    [Fact]
    public async Task Every_pile_that_stands_in_a_zone_has_ground_and_the_ground_of_a_zone_is_not_more_than_its_outline()
    {
        GroundView view = await ReadAsync(new GroundRequest());

        view.Replacement.Piles.Count.ShouldBe(await demo.OneAsync<int>("select count(distinct adopted)::int from derived.installation where stands"));
        foreach (ZoneReplacement zone in view.Replacement.Zones)
        {
            zone.Known.ShouldBe(zone.Standing);
            view.Replacement.Piles.Where(one => one.Pile.Zone == zone.Design.Zone).Sum(one => one.Area.AreaSquareMetres).ShouldBeLessThan(Shoelace(zone.Design.Outline));
            zone.Mean!.Value.ShouldBeInRange(0.98 * zone.Design.Ratio, 1.12 * zone.Design.Ratio);
        }
    }

    [Fact]
    public async Task What_is_asked_changes_what_is_told()
    {
        GroundView strict = await ReadAsync(new GroundRequest(ShareRatio: 1.05)), loose = await ReadAsync(new GroundRequest(ShareRatio: 0.5));
        strict.Replacement.Spots.Sum(spot => spot.Piles.Count).ShouldBeGreaterThan(100);
        loose.Replacement.Spots.ShouldBeEmpty();

        GroundView backwards = await ReadAsync(new GroundRequest(Before: "2026-05-23 After twelve weeks", After: "2026-02-24 Before the piles"));
        backwards.Heave!.Refusal.ShouldNotBeNull().ShouldContain("later");
        (await ReadAsync(new GroundRequest(SquareMetres: 0.01))).Heave!.Refusal.ShouldNotBeNull().ShouldContain("larger");

        GroundView expected = await ReadAsync(new GroundRequest(UnitWeight: 8, FinesPercent: 10));
        expected.Blows.Steps.ShouldContain(step => step.Expected != null);
        (await ReadAsync(new GroundRequest())).Blows.Steps.ShouldAllBe(step => step.Expected == null);
        (await ReadAsync(new GroundRequest(Around: "A-0007"))).Drawn!.Pile.Pile.Number.ShouldBe("A-0007");
    }

    private static double Shoelace(IReadOnlyList<Core.Coordinates.SiteCoordinate> ring)
        => Math.Abs(ring.Select((corner, place) => (corner.XMetres * ring[(place + 1) % ring.Count].YMetres) - (ring[(place + 1) % ring.Count].XMetres * corner.YMetres)).Sum()) / 2;

    private static JsonElement Truth() => JsonDocument.Parse(File.ReadAllText(Path.Combine(RawFiles.Folder, "truth", "truth-ground.json"))).RootElement;

    private async Task<GroundView> ReadAsync(GroundRequest request)
        => (await demo.Services.GetRequiredService<ReadGround>().RunAsync(await demo.PermitAsync(Role.OwnersRepresentative), request, TestContext.Current.CancellationToken)).ShouldNotBeNull();
}
