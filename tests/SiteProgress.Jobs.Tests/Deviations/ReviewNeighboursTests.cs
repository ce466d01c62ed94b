using System.Globalization;
using Microsoft.Extensions.DependencyInjection;
using Shouldly;
using SiteProgress.Core.Neighbours;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Deviations;
using SiteProgress.Jobs.Tests.Demo;
using Xunit;

namespace SiteProgress.Jobs.Tests.Deviations;

/// <summary>Spacing of the demo's neighbours against the database's own join of every pile with every other.</summary>
[Collection(DemoCollection.Name)]
public sealed class ReviewNeighboursTests(DemoSite demo)
{
    /// <summary>Pairs of zone A, a square of 2.1 m: design positions nearer than 1.1 diagonals.</summary>
    private const string PairsOfZoneA =
        """
        with built as (select number, design_x, design_y, as_built_x, as_built_y, radial_limit from derived.pile where comparable and as_built_x is not null and zone = 'A'),
        pairs as (
            select sqrt((a.design_x - b.design_x) ^ 2 + (a.design_y - b.design_y) ^ 2) as design,
                sqrt((a.as_built_x - b.as_built_x) ^ 2 + (a.as_built_y - b.as_built_y) ^ 2) as built, a.radial_limit as allowed
            from built a join built b on a.number < b.number)
        select count(*) from pairs where design <= 2.1 * sqrt(2) * 1.1 and
        """;

    [Fact]
    public async Task Pairs_too_far_apart_and_too_close_are_those_of_the_database()
    {
        ReviewNeighbours.View view = await ReadAsync(new("A"));

        ((long)view.Review.Pairs).ShouldBe(await demo.OneAsync<long>($"{PairsOfZoneA} true"));
        ((long)view.Review.Wider.Count).ShouldBe(await demo.OneAsync<long>($"{PairsOfZoneA} built - design > allowed + 1e-9"));
        ((long)view.Review.Closer.Count).ShouldBe(await demo.OneAsync<long>($"{PairsOfZoneA} design - built > allowed + 1e-9"));
        view.Review.Wider.Count.ShouldBeGreaterThan(0);
        view.Review.Wider.ShouldContain(pair => pair.BothWithinLimit);
    }

    [Fact]
    public async Task What_is_allowed_can_be_asked_and_a_pair_is_drawn_with_what_stands_around_it()
    {
        ReviewNeighbours.View all = await ReadAsync(new("A", WiderMetres: 0));
        all.Review.Wider.Count.ShouldBeGreaterThan((await ReadAsync(new("A"))).Review.Wider.Count);
        NeighbourPair second = all.Review.Wider[1];

        ReviewNeighbours.View drawn = await ReadAsync(new("A", WiderMetres: 0, One: second.Other.Number, Other: second.One.Number));

        drawn.Drawn.ShouldBe(second);
        drawn.Around.Select(pile => pile.Number).ShouldContain(second.One.Number);
        drawn.Around.Select(pile => pile.Number).Order(StringComparer.Ordinal).ShouldBe(await NumbersAroundAsync(second));
        drawn.DrawnAt.ShouldNotBeNull();
    }

    /// <summary>Judged piles of zone A no farther along either axis from the middle of a pair than twice its designed spacing.</summary>
    private async Task<string[]> NumbersAroundAsync(NeighbourPair pair) => await demo.OneAsync<string[]>(string.Create(
        CultureInfo.InvariantCulture,
        $"""
        with middle as (select avg(design_x) as x, avg(design_y) as y from derived.pile where number in ('{pair.One.Number}', '{pair.Other.Number}'))
        select array_agg(number order by number collate "C") from derived.pile, middle
        where zone = 'A' and comparable and as_built_x is not null and abs(design_x - x) <= {2 * pair.DesignMetres:R} and abs(design_y - y) <= {2 * pair.DesignMetres:R}
        """));

    private async Task<ReviewNeighbours.View> ReadAsync(ReviewNeighbours.Request request)
        => await ActivatorUtilities.CreateInstance<ReviewNeighbours>(demo.Services).RunAsync(await demo.PermitAsync(Role.OwnersRepresentative), request, TestContext.Current.CancellationToken);
}
