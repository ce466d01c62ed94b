using SiteProgress.Core.Piles;

namespace SiteProgress.Exchange.Tests;

public sealed class AxisSuspicionTests
{
    // Boxes of an invented site that is longer than wide, in three frames.
    private static readonly Dictionary<Frame, FrameBox> Site = new()
    {
        [Frame.SiteGrid] = new FrameBox(900, 1_900, 1_600, 2_200),
        [Frame.ProjectedCrs] = new FrameBox(392_500, 6_162_500, 393_200, 6_163_000),
        [Frame.Geographic] = new FrameBox(55.59, 7.29, 55.61, 7.31),
    };

    [Fact]
    public void Positions_on_the_site_raise_no_suspicion()
        => AxisSuspicion.Judge(Row(Frame.SiteGrid, 1_000, 2_000, 50), Site).ShouldBeEmpty();

    [Fact]
    public void Swapped_columns_are_named_with_the_evidence()
    {
        var suspicion = AxisSuspicion.Judge(Row(Frame.SiteGrid, 2_000, 1_000, 50), Site).ShouldHaveSingleItem();

        suspicion.Mistake.ShouldBe(AxisMistake.Swapped);
        (suspicion.RowsSeen, suspicion.RowsOutside, suspicion.RowsExplained).ShouldBe((50, 50, 50));
        // First lies 400 to 498 m east of the box and second 900 m below it; the mean of the hypotenuses over the row.
        suspicion.MeanDistance.ShouldBe(Enumerable.Range(0, 50).Average(step => Math.Sqrt((Square(400 + (2 * step))) + Square(900))), 1e-9);
    }

    [Fact]
    public void Projected_coordinates_under_headers_of_the_site_grid_are_named()
    {
        var suspicion = AxisSuspicion.Judge(Row(Frame.SiteGrid, 392_600, 6_162_700, 20), Site).ShouldHaveSingleItem();

        suspicion.Mistake.ShouldBe(AxisMistake.OtherFrame);
        suspicion.Text.ShouldEndWith("20 of these lie on the site when taken as easting and northing of the projected CRS.");
    }

    [Fact]
    public void One_morning_in_the_wrong_frame_is_seen_among_many_good_rows()
    {
        var suspicion = AxisSuspicion.Judge(
            [.. Row(Frame.SiteGrid, 1_000, 2_000, 200), .. Row(Frame.SiteGrid, 392_600, 6_162_700, 6)], Site).ShouldHaveSingleItem();

        (suspicion.Mistake, suspicion.RowsSeen, suspicion.RowsOutside).ShouldBe((AxisMistake.OtherFrame, 206, 6));
    }

    [Fact]
    public void Northing_and_easting_under_headers_of_the_site_grid_are_named()
        => AxisSuspicion.Judge(Row(Frame.SiteGrid, 6_162_700, 392_600, 20), Site).ShouldHaveSingleItem()
            .Mistake.ShouldBe(AxisMistake.OtherFrameSwapped);

    [Fact]
    public void Latitude_and_longitude_swapped_are_named_in_degrees()
    {
        var suspicion = AxisSuspicion.Judge([new(Frame.Geographic, 7.3, 55.6)], Site).ShouldHaveSingleItem();

        suspicion.Mistake.ShouldBe(AxisMistake.Swapped);
        suspicion.Text.ShouldBe(
            "1 of 1 positions lie outside the site, on average 68.292 degrees from it; 1 of these lie on the site when latitude and longitude are swapped.");
    }

    [Fact]
    public void Another_zone_of_the_projection_is_far_away_and_not_explained()
        => AxisSuspicion.Judge(Row(Frame.ProjectedCrs, 770_000, 6_172_000, 20), Site).ShouldHaveSingleItem()
            .Mistake.ShouldBe(AxisMistake.NotExplained);

    [Fact]
    public void A_few_strays_are_no_mistake_of_the_file()
        => AxisSuspicion.Judge([.. Row(Frame.SiteGrid, 1_000, 2_000, 20), new(Frame.SiteGrid, 5_000, 5_000)], Site).ShouldBeEmpty();

    [Fact]
    public void A_swap_that_stays_on_the_site_cannot_be_seen()
        => AxisSuspicion.Judge(
            [new(Frame.SiteGrid, 20, 40)], new Dictionary<Frame, FrameBox> { [Frame.SiteGrid] = new(0, 0, 100, 100) }).ShouldBeEmpty();

    [Fact]
    public void A_frame_the_site_is_not_known_in_is_not_judged()
        => AxisSuspicion.Judge([new(Frame.Geographic, 0, 0)], new Dictionary<Frame, FrameBox>()).ShouldBeEmpty();

    [Fact]
    public void A_box_goes_around_its_positions_with_its_margin()
        => FrameBox.Around(Row(Frame.SiteGrid, 10, 20, 3), 5).ShouldBe(new FrameBox(5, 15, 19, 25));

    private static RecordedPosition[] Row(Frame frame, double first, double second, int count)
        => [.. Enumerable.Range(0, count).Select(step => new RecordedPosition(frame, first + (2 * step), second))];

    private static double Square(double value) => value * value;
}
