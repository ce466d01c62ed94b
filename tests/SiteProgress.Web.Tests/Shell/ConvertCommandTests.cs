using System.Globalization;
using Shouldly;
using SiteProgress.Web.Commands;
using Xunit;

namespace SiteProgress.Web.Tests.Shell;

/// <summary>Converting lists from a shell, with a definition alone; no store is asked.</summary>
public sealed class ConvertCommandTests : IDisposable
{
    private const string Definition = """
        PROJCS["OSGB36 / British National Grid",GEOGCS["OSGB36",DATUM["OSGB36",SPHEROID["Airy 1830",6377563.396,299.3249646]],PRIMEM["Greenwich",0],
        UNIT["degree",0.0174532925199433]],PROJECTION["Transverse_Mercator"],PARAMETER["latitude_of_origin",49],PARAMETER["central_meridian",-2],
        PARAMETER["scale_factor",0.9996012717],PARAMETER["false_easting",400000],PARAMETER["false_northing",-100000],UNIT["metre",1]]
        """;

    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("siteprogress-convert-");

    public void Dispose() => folder.Delete(recursive: true);

    [Fact]
    public async Task A_list_goes_through_and_its_bad_lines_are_told()
    {
        // A guide to coordinate systems in Great Britain, Annex C: 52°39'27.2531"N 1°43'4.5177"E is 651409.903 313177.270.
        (int status, string error, string[] lines) = await ConvertAsync("Latitude,Longitude,Name\n52.657570305556,1.717921583333,tower\nnorth,east,lost\n");
        lines[0].ShouldBe("Easting [m],Northing [m],Name");
        string[] cells = lines[1].Split(',');
        double.Parse(cells[0], CultureInfo.InvariantCulture).ShouldBe(651409.903, 0.001);
        double.Parse(cells[1], CultureInfo.InvariantCulture).ShouldBe(313177.270, 0.001);
        cells[2].ShouldBe("tower");
        lines[2].ShouldBe(",,lost");
        status.ShouldBe(1);
        error.ShouldStartWith("Line 3: found");
    }

    [Fact]
    public async Task A_list_without_bad_lines_ends_well() => (await ConvertAsync("52.5,1\n")).Status.ShouldBe(0);

    [Theory]
    [InlineData("siteGrid", "geographic", "has no site grid")]
    [InlineData("utm", "geographic", "'utm' is no frame")]
    public async Task What_cannot_be_asked_is_said_in_one_sentence(string from, string to, string expected)
    {
        (int status, string error) = await RunAsync("convert", Write("crs.wkt", Definition), from, to, Write("in.csv", "1,2\n"), In("out.csv"));
        status.ShouldBe(1);
        error.ShouldContain(expected);
        error.Trim().Split('\n').Length.ShouldBe(1);
    }

    [Fact]
    public async Task A_definition_cut_short_and_a_missing_list_are_said_too()
    {
        (await RunAsync("convert", Write("cut.wkt", Definition[..100]), "projectedCrs", "geographic", Write("in.csv", "1,2\n"), In("out.csv"))).Error.ShouldContain("cut short");
        (await RunAsync("convert", Write("crs.wkt", Definition), "projectedCrs", "geographic", In("nowhere.csv"), In("out.csv"))).Error.ShouldContain("cannot be opened");
    }

    private async Task<(int Status, string Error, string[] Lines)> ConvertAsync(string list)
    {
        (int status, string error) = await RunAsync("convert", Write("crs.wkt", Definition), "geographic", "projectedCrs", Write("in.csv", list), In("out.csv"));
        return (status, error, await File.ReadAllLinesAsync(In("out.csv"), TestContext.Current.CancellationToken));
    }

    private static async Task<(int Status, string Error)> RunAsync(params string[] arguments)
    {
        using StringWriter output = new(), error = new();
        int status = await CommandLine.RunAsync(arguments, output, error);
        return (status, error.ToString());
    }

    private string In(string name) => Path.Combine(folder.FullName, name);

    private string Write(string name, string text)
    {
        File.WriteAllText(In(name), text);
        return In(name);
    }
}
