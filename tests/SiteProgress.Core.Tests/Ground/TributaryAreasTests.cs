using NetTopologySuite.Geometries;
using NetTopologySuite.Triangulate;
using Shouldly;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Ground;
using Xunit;

namespace SiteProgress.Core.Tests.Ground;

/// <summary>Ground that belongs to a pile: plane geometry, held against unit cells and against NetTopologySuite's Voronoi diagram.</summary>
public sealed class TributaryAreasTests
{
    private static readonly SiteCoordinate[] Block = [new(-100, -100), new(100, -100), new(100, 100), new(-100, 100)];

    // Area of the unit cell of each pattern: Barksdale and Bachus, FHWA/RD-83/026 (from memory): s², s1 s2, s² √3/2.
    [Theory]
    [InlineData(2.1, 2.1, 0, 4.41)]
    [InlineData(2.1, 2.6, 0, 5.46)]
    [InlineData(2.1, 1.8186533479, 1.05, 3.8191720306)]
    public void A_pile_inside_a_pattern_has_the_unit_cell(double along, double across, double stagger, double area)
    {
        SiteCoordinate[] points = [.. Pattern(9, 9, along, across, stagger)];

        TributaryAreas.Of(points, _ => Block, along)[40].AreaSquareMetres.ShouldBe(area, 1e-9);
    }

    [Fact]
    public void A_pile_that_went_aside_takes_from_one_neighbour_what_it_leaves_to_the_other()
    {
        SiteCoordinate[] points = [.. Pattern(9, 9, 2, 2, 0)];
        points[40] = new(points[40].XMetres + 0.3, points[40].YMetres);

        TributaryArea[] areas = TributaryAreas.Of(points, _ => Block, 2);

        // Both borders move by half the step, so its own ground is of the same size; the neighbours behind and ahead gain and lose.
        areas[39].AreaSquareMetres.ShouldBeGreaterThan(4.2);
        areas[41].AreaSquareMetres.ShouldBeLessThan(3.8);
        areas.Sum(area => area.AreaSquareMetres).ShouldBe(40_000, 1e-6);
    }

    [Theory]
    [InlineData(3)]
    [InlineData(57)]
    [InlineData(400)]
    public void Every_area_is_that_of_an_independent_voronoi_diagram(int count)
    {
        Random chance = new(20261125 + count);
        SiteCoordinate[] points = [.. Enumerable.Range(0, count).Select(_ => new SiteCoordinate((chance.NextDouble() * 180) - 90, (chance.NextDouble() * 180) - 90))];

        TributaryArea[] areas = TributaryAreas.Of(points, _ => Block, 5);

        VoronoiDiagramBuilder peer = new() { ClipEnvelope = new Envelope(-1000, 1000, -1000, 1000) };
        peer.SetSites(points.Select(point => new Coordinate(point.XMetres, point.YMetres)).ToArray());
        Geometry block = new Polygon(new LinearRing([.. Block.Append(Block[0]).Select(corner => new Coordinate(corner.XMetres, corner.YMetres))]));
        Geometry diagram = peer.GetDiagram(GeometryFactory.Default);
        Dictionary<Coordinate, double> peers = Enumerable.Range(0, diagram.NumGeometries).Select(diagram.GetGeometryN).ToDictionary(cell => (Coordinate)cell.UserData, cell => cell.Intersection(block).Area);
        for (int place = 0; place < count; place++)
            areas[place].AreaSquareMetres.ShouldBe(peers[new Coordinate(points[place].XMetres, points[place].YMetres)], 1e-6);
    }

    [Fact]
    public void Areas_fill_a_concave_outline_and_nothing_else()
    {
        // An L of 3 squares of 10 m.
        SiteCoordinate[] outline = [new(0, 0), new(20, 0), new(20, 10), new(10, 10), new(10, 20), new(0, 20)];
        SiteCoordinate[] points = [new(15, 5), new(5, 5), new(5, 15)];

        TributaryAreas.Of(points, _ => outline, 10).Select(area => area.AreaSquareMetres).ShouldBe([100, 100, 100], 1e-9);
        TributaryAreas.Of(points, _ => [.. outline.Reverse()], 0.5).Select(area => area.AreaSquareMetres).ShouldBe([100, 100, 100], 1e-9);
    }

    [Fact]
    public void Far_from_the_origin_of_a_national_grid_nothing_changes()
    {
        SiteCoordinate[] near = [.. Pattern(5, 5, 2.1, 2.1, 0)];
        SiteCoordinate[] far = [.. near.Select(point => new SiteCoordinate(point.XMetres + 450_000, point.YMetres + 6_160_000))];
        SiteCoordinate[] block = [.. Block.Select(corner => new SiteCoordinate(corner.XMetres + 450_000, corner.YMetres + 6_160_000))];

        TributaryAreas.Of(far, _ => block, 2.1)[12].AreaSquareMetres.ShouldBe(4.41, 1e-6);
    }

    [Fact]
    public void Piles_in_one_place_share_its_ground_and_one_alone_has_all()
    {
        TributaryAreas.Of([new(0, 0), new(0, 0)], _ => Block, 1).Select(area => area.AreaSquareMetres).ShouldBe([20_000, 20_000], 1e-9);
        TributaryArea alone = TributaryAreas.Of([new(5, 5)], _ => Block, 1).ShouldHaveSingleItem();
        (alone.AreaSquareMetres, alone.Neighbours.Count, alone.ReachesOutline).ShouldBe((40_000, 0, true));
        TributaryAreas.Of([], _ => Block, 1).ShouldBeEmpty();
    }

    [Fact]
    public void A_point_far_outside_its_outline_has_no_ground_beside_one_inside()
        => TributaryAreas.Of([new(500, 0), new(90, 0)], _ => Block, 1).Select(area => area.AreaSquareMetres).ShouldBe([0, 40_000], 1e-9);

    private static IEnumerable<SiteCoordinate> Pattern(int columns, int rows, double along, double across, double stagger)
    {
        for (int row = 0; row < rows; row++)
        {
            for (int column = 0; column < columns; column++)
                yield return new SiteCoordinate((column * along) + (row % 2 == 1 ? stagger : 0) - 8, (row * across) - 8);
        }
    }
}
