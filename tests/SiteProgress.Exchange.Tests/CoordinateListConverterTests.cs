using System.Globalization;
using System.Text;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.CoordinateLists;

namespace SiteProgress.Exchange.Tests;

public sealed class CoordinateListConverterTests
{
    private const string Definition = """
        PROJCS["OSGB36 / British National Grid",GEOGCS["OSGB36",DATUM["OSGB36",SPHEROID["Airy 1830",6377563.396,299.3249646]],PRIMEM["Greenwich",0],
        UNIT["degree",0.0174532925199433]],PROJECTION["Transverse_Mercator"],PARAMETER["latitude_of_origin",49],PARAMETER["central_meridian",-2],
        PARAMETER["scale_factor",0.9996012717],PARAMETER["false_easting",400000],PARAMETER["false_northing",-100000],UNIT["metre",1]]
        """;

    private static readonly CoordinateService Service = new(
        new Adjustment(AdjustmentKind.Similarity, 1, 0, -1, 1, 0, new(0, 0), new(651_400, 313_100)), ProjectedCrs.FromWkt(0, Definition).Crs!);

    [Fact]
    public async Task The_published_point_comes_out_whatever_the_delimiter_and_the_spelling()
    {
        // A guide to coordinate systems in Great Britain, Annex C: 52°39'27.2531"N 1°43'4.5177"E is 651409.903 313177.270.
        foreach (var line in new[] { "52.657570305556,1.717921583333", "52.657570305556;1.717921583333", "52°39'27.2531\"N\t1°43'4.5177\"E" })
        {
            var (text, result) = await Convert(line, Frame.Geographic, Frame.ProjectedCrs);
            var cells = text.TrimEnd('\n').Split(',', ';', '\t').Select(cell => double.Parse(cell, CultureInfo.InvariantCulture)).ToArray();
            cells[0].ShouldBe(651409.903, 0.001);
            cells[1].ShouldBe(313177.270, 0.001);
            result.Points.ShouldBe(1);
        }

        var (back, _) = await Convert("651409.903,313177.270", Frame.ProjectedCrs, Frame.Geographic);
        back.ShouldStartWith("52.65757030");
    }

    [Fact]
    public async Task A_header_takes_the_titles_of_the_new_frame_and_the_rest_of_every_line_stays()
    {
        var (text, result) = await Convert("\uFEFFEasting [m];Northing [m];Pile\r\n651410;313105;S-1\r\n651420;313100;\"S;2\"", Frame.ProjectedCrs, Frame.SiteGrid);
        text.ShouldBe("X [m];Y [m];Pile\n5.0000;-10.0000;S-1\n0.0000;-20.0000;\"S;2\"\n");
        result.Points.ShouldBe(2);
        result.Problems.ShouldBeEmpty();
    }

    [Fact]
    public async Task A_line_that_cannot_be_converted_keeps_its_place_and_is_told_with_what_stood_there()
    {
        var (text, result) = await Convert("10,20,a\nten,20,b\n\n10,,c\n1e3,20,d\n7", Frame.SiteGrid, Frame.ProjectedCrs);
        text.ShouldBe("651380.0000,313110.0000,a\n,,b\n\n,,c\n651380.0000,314100.0000,d\n,\n");
        result.ProblemCount.ShouldBe(3);
        result.Problems[0].Sentence.ShouldBe("Line 2: found “ten,20,b”; expected two numbers with a decimal point in the first two cells.");
        result.Problems[2].Line.ShouldBe(6);
    }

    [Fact]
    public async Task Latitudes_beyond_the_pole_are_not_read() =>
        (await Convert("95,3\n1.7,52.6", Frame.Geographic, Frame.ProjectedCrs)).Result.ProblemCount.ShouldBe(1);

    [Fact]
    public async Task However_the_bytes_arrive_the_answer_is_the_same()
    {
        var random = new Random(5);
        var list = new StringBuilder("X,Y,Name\n");
        for (var i = 0; i < 20_000; i++) list.Append(CultureInfo.InvariantCulture, $"{random.NextDouble() * 5000 - 2500:F4},{random.NextDouble() * 5000 - 2500:F3},pile {i}\r\n");
        var whole = (await Convert(list.ToString(), Frame.SiteGrid, Frame.Geographic)).Text;
        var dripped = new MemoryStream();
        await CoordinateListConverter.ConvertAsync(new DrippingStream(Encoding.UTF8.GetBytes(list.ToString())), dripped, Service, new FrameChange(Frame.SiteGrid, Frame.Geographic), cancellation: TestContext.Current.CancellationToken);
        Encoding.UTF8.GetString(dripped.ToArray()).ShouldBe(whole);
        whole.Split('\n').Length.ShouldBe(20_002);
    }

    [Fact]
    public async Task There_and_back_closes_to_the_written_digit()
    {
        var random = new Random(6);
        var list = string.Concat(Enumerable.Range(0, 5000).Select(_ => string.Create(CultureInfo.InvariantCulture, $"{random.NextDouble() * 5000 - 2500:F4},{random.NextDouble() * 5000 - 2500:F4}\n")));
        var there = (await Convert(list, Frame.SiteGrid, Frame.Geographic)).Text;
        var back = (await Convert(there, Frame.Geographic, Frame.SiteGrid)).Text;
        foreach (var (given, returned) in list.Split('\n', StringSplitOptions.RemoveEmptyEntries).Zip(back.Split('\n')))
            foreach (var (a, b) in given.Split(',').Zip(returned.Split(',')))
                double.Parse(b, CultureInfo.InvariantCulture).ShouldBe(double.Parse(a, CultureInfo.InvariantCulture), 1.01e-4);
    }

    [Fact]
    public async Task A_long_line_is_carried_whole()
    {
        var remark = new string('x', 1_000_000);
        var (text, _) = await Convert($"1,2,{remark}\n3,4,end", Frame.SiteGrid, Frame.ProjectedCrs);
        text.ShouldBe($"651398.0000,313101.0000,{remark}\n651396.0000,313103.0000,end\n");
    }

    [Theory]
    [InlineData("0", 0)]
    [InlineData("-0.5", -0.5)]
    [InlineData("+12.25", 12.25)]
    [InlineData(" 7 ", 7)]
    [InlineData("52.657570305555556", 52.657570305555556)]
    [InlineData("0.1", 0.1)]
    [InlineData("123456789012345678901234", 123456789012345678901234d)]
    [InlineData("1e-3", 0.001)]
    [InlineData("9007199254740993", 9007199254740993d)]
    public void A_decimal_is_read_as_the_library_reads_it(string text, double expected)
    {
        DecimalBytes.TryRead(Encoding.UTF8.GetBytes(text), out var value).ShouldBeTrue();
        value.ShouldBe(expected);
    }

    [Theory]
    [InlineData("")]
    [InlineData("-")]
    [InlineData("1.2.3")]
    [InlineData("1,5")]
    [InlineData("NaN")]
    [InlineData("1e999")]
    [InlineData("12 34")]
    public void What_is_no_decimal_is_not_read(string text) => DecimalBytes.TryRead(Encoding.UTF8.GetBytes(text), out _).ShouldBeFalse();

    [Theory]
    [InlineData(0, 4, "0.0000")]
    [InlineData(-0.00001, 4, "0.0000")]
    [InlineData(-0.5, 0, "0")]
    [InlineData(1.99996, 4, "2.0000")]
    [InlineData(-651409.90349, 3, "-651409.903")]
    [InlineData(0.05, 2, "0.05")]
    [InlineData(179.9999999999, 10, "179.9999999999")]
    public void A_decimal_is_written_with_its_decimals(double value, int decimals, string expected)
    {
        var bytes = new byte[64];
        Encoding.UTF8.GetString(bytes, 0, DecimalBytes.Write(value, decimals, bytes)).ShouldBe(expected);
    }

    private static async Task<(string Text, CoordinateListResult Result)> Convert(string text, Frame from, Frame to)
    {
        using var output = new MemoryStream();
        var result = await CoordinateListConverter.ConvertAsync(new MemoryStream(Encoding.UTF8.GetBytes(text)), output, Service, new FrameChange(from, to), cancellation: TestContext.Current.CancellationToken);
        return (Encoding.UTF8.GetString(output.ToArray()), result);
    }

    /// <summary>Gives its bytes in pieces of changing size, as a network does.</summary>
    private sealed class DrippingStream(byte[] bytes) : MemoryStream(bytes)
    {
        private int turn;

        public override ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancellationToken = default) =>
            base.ReadAsync(buffer[..Math.Min(buffer.Length, 1 + turn++ * 37 % 5000)], cancellationToken);
    }
}
