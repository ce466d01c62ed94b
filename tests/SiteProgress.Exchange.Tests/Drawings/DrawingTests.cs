using System.Globalization;
using System.Text;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.PileSchedules;

namespace SiteProgress.Exchange.Tests.Drawings;

/// <summary>Drawings (DXF, ASCII): the group codes are those of the format's published reference.</summary>
public sealed class DrawingTests
{
    private static readonly ReadingChoices Choices = Given.Choices with { Frame = Frame.SiteGrid, FixedValues = [new FixedValue("zone", "A")] };

    [Fact]
    public void Points_take_the_text_beside_them_and_circles_their_diameter()
    {
        var reading = Read(Drawing("",
            Point(1000, 2000), Text(1000.3, 2000.3, "A-1"), Circle(1002.1, 2000, 1.0), Text(1002.4, 2000.3, "%%uA-2"), Point(1004.2, 2000), MText(1004.5, 2000.3, "{\\fArial;A-3}"))).WithoutProblems();

        reading.Rows.Select(row => (row.Value.Number, row.Value.Position.First, row.Value.DiameterMetres)).ShouldBe(
            [("A-1", 1000.0, null), ("A-2", 1002.1, (double?)2.0), ("A-3", 1004.2, null)]);
    }

    [Fact]
    public void A_circle_and_the_point_at_its_centre_are_one_pile()
    {
        var reading = Read(Drawing("", Circle(1000, 2000, 1.0), Point(1000, 2000), Text(1000.3, 2000.3, "A-1"), Point(1002.1, 2000), Circle(1002.1, 2000, 0.8), Text(1002.4, 2000.3, "A-2"))).WithoutProblems();

        reading.Rows.Select(row => (row.Value.Number, row.Value.DiameterMetres)).ShouldBe([("A-1", 2.0), ("A-2", 1.6)]);
        reading.Assumptions.ShouldContain("2 circles are taken together with the point or insert at their centre.");
    }

    [Fact]
    public void A_text_as_near_to_two_places_names_neither()
    {
        var reading = Read(Drawing("", Point(1000, 2000), Point(1002, 2000), Text(1001.02, 2000.3, "A-1"), Point(1004, 2000), Text(1004.2, 2000.2, "A-3")));

        reading.Rows.Single().Value.Number.ShouldBe("A-3");
        reading.Problems.Select(problem => (problem.Column, problem.Expected)).ShouldBe([("Pile No", "a pile number"), ("Pile No", "a pile number")]);
    }

    [Fact]
    public void Attributes_of_block_inserts_are_columns()
    {
        var reading = Read(Drawing("", Insert("PILE", 1000, 2000, ("PILE_NO", "A-1"), ("TIP_LEVEL", "-28.05")), Insert("PILE", 1002, 2000, ("PILE_NO", "A-2"), ("TIP_LEVEL", "-28.1"))))
            .WithoutProblems();

        reading.Rows.Select(row => (row.Value.Number, row.Value.TipLevelMetres)).ShouldBe([("A-1", -28.05), ("A-2", -28.1)]);
    }

    [Fact]
    public void A_block_that_holds_places_is_put_where_its_insert_says()
    {
        // Base point (1, 0), scale 2, turned by 90 degrees: (3, 1) of the block is 2 * (2, 1) turned to (-2, 4), from (100, 200).
        var block = Pairs((0, "BLOCK"), (8, "0"), (2, "ROW"), (10, "1.0"), (20, "0.0")) + Point(3, 1) + Text(3.1, 1.1, "A-1") + Pairs((0, "ENDBLK"));
        var reading = Read(Drawing(block, Pairs((0, "INSERT"), (8, "0"), (2, "ROW"), (10, "100"), (20, "200"), (41, "2"), (42, "2"), (50, "90")))).WithoutProblems();

        var position = reading.Rows.Single().Value.Position;
        (Math.Round(position.First, 9), Math.Round(position.Second, 9)).ShouldBe((98, 204));
    }

    [Fact]
    public void Seen_from_below_the_first_axis_is_mirrored()
        // The reference's arbitrary axis algorithm: for the direction (0, 0, -1) the first axis is (-1, 0, 0).
        => Read(Drawing("", Pairs((0, "CIRCLE"), (8, "0"), (10, "-1000"), (20, "2000"), (40, "1"), (210, "0"), (220, "0"), (230, "-1")), Text(1000.2, 2000.1, "A-1")))
            .WithoutProblems().Rows.Single().Value.Position.First.ShouldBe(1000);

    [Theory]
    [InlineData("4", 1.0)]
    [InlineData("6", 1000.0)]
    [InlineData("2", 304.8)]
    public void The_unit_of_the_drawing_is_converted(string units, double metres)
        => Read(Pairs((0, "SECTION"), (2, "HEADER"), (9, "$INSUNITS"), (70, units), (0, "ENDSEC")) + Drawing("", Point(1000, 2000), Text(1000.2, 2000.1, "A-1")))
            .WithoutProblems().Rows.Single().Value.Position.First.ShouldBe(metres, 1e-9);

    [Fact]
    public void The_frame_of_a_drawing_is_asked()
        => Read(Drawing("", Point(1000, 2000), Text(1000.2, 2000.1, "A-1")), Choices with { Frame = null }).TheProblem().Expected
            .ShouldBe("a choice of the frame of the points, because a drawing names none");

    [Fact]
    public void A_layer_may_be_said_to_be_the_zone()
    {
        var drawing = Drawing("", Point(1000, 2000, "B"), Text(1000.2, 2000.1, "A-1"));
        var columns = Read(drawing).Header!.Columns;
        var layer = columns.Single(column => column.Title == "Layer").Cell;

        Read(drawing, Choices with { FixedValues = [], Columns = [new ColumnChoice(layer, "zone", null)] }).WithoutProblems().Rows.Single().Value.Zone.ShouldBe("B");
    }

    [Fact]
    public void A_drawing_written_by_ogr2ogr_is_read_with_its_points()
    {
        using var tools = new OutsideTools();
        using var stream = tools.Ogr("DXF", "points.dxf");

        // ogr2ogr writes points without their attributes, so the numbers are missing; and it writes inches into the header of
        // every drawing, so a person says that these are metres.
        var inches = PlannedPileReader.Read(stream, Choices with { Frame = Frame.ProjectedCrs }, TestContext.Current.CancellationToken);
        inches.Assumptions.ShouldContain("The drawing's unit is in.");
        inches.Assumptions.ShouldContain("Column Easting converted from in to m.");
        ColumnChoice[] metres = [.. inches.Header!.Columns.Where(column => column.Meaning is "easting" or "northing").Select(column => new ColumnChoice(column.Cell, column.Meaning, "m"))];
        stream.Position = 0;
        var reading = PlannedPileReader.Read(stream, Choices with { Frame = Frame.ProjectedCrs, Columns = metres }, TestContext.Current.CancellationToken);

        reading.RowsRead.ShouldBe(3);
        reading.Problems.Select(problem => problem.Column).Distinct().ShouldBe(["Pile No"]);
        reading.Header!.Columns.Single(column => column.Title.StartsWith("Easting", StringComparison.Ordinal)).FirstValues.ShouldBe(["392796.601", "392798.362", "392800.123"]);
    }

    internal static string Pairs(params (int Code, string Value)[] pairs)
        => string.Concat(pairs.Select(pair => string.Create(CultureInfo.InvariantCulture, $"{pair.Code,3}\r\n{pair.Value}\r\n")));

    internal static string Drawing(string blocks, params string[] entities)
        => (blocks.Length == 0 ? "" : Pairs((0, "SECTION"), (2, "BLOCKS")) + blocks + Pairs((0, "ENDSEC")))
            + Pairs((0, "SECTION"), (2, "ENTITIES")) + string.Concat(entities) + Pairs((0, "ENDSEC"), (0, "EOF"));

    internal static string Point(double x, double y, string layer = "0") => Pairs((0, "POINT"), (8, layer), (10, Say(x)), (20, Say(y)), (30, "0.0"));

    internal static string Insert(string block, double x, double y, params (string Tag, string Value)[] attributes)
        => Pairs((0, "INSERT"), (8, "0"), (2, block), (10, Say(x)), (20, Say(y)))
            + (attributes.Length == 0 ? "" : Pairs((66, "1")) + string.Concat(attributes.Select(one => Pairs((0, "ATTRIB"), (8, "0"), (10, Say(x)), (20, Say(y)), (1, one.Value), (2, one.Tag)))) + Pairs((0, "SEQEND")));

    private static string Circle(double x, double y, double radius) => Pairs((0, "CIRCLE"), (8, "0"), (10, Say(x)), (20, Say(y)), (40, Say(radius)));

    private static string Text(double x, double y, string text) => Pairs((0, "TEXT"), (8, "0"), (10, Say(x)), (20, Say(y)), (40, "0.5"), (1, text));

    private static string MText(double x, double y, string text) => Pairs((0, "MTEXT"), (8, "0"), (10, Say(x)), (20, Say(y)), (40, "0.5"), (1, text));

    private static string Say(double value) => value.ToString("R", CultureInfo.InvariantCulture);

    private static TableReading<AsPlanned> Read(string text, ReadingChoices? choices = null)
        => PlannedPileReader.Read(new MemoryStream(Encoding.UTF8.GetBytes(text)), choices ?? Choices, TestContext.Current.CancellationToken);
}
