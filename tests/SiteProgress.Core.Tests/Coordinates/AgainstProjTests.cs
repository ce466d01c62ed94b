using System.Diagnostics;
using System.Globalization;
using System.Text;
using Shouldly;
using SiteProgress.Core.Coordinates;
using Xunit;

namespace SiteProgress.Core.Tests.Coordinates;

/// <summary>Our projections against the installed PROJ (Debian's proj-bin), on a grid of points, to a hundredth of a millimetre.</summary>
public sealed class AgainstProjTests
{
    [Theory]
    [InlineData("gigs A1", "EPSG:4326", "EPSG:32631", 0, 84, 0, 6)]
    [InlineData("osgb36", "EPSG:4277", "EPSG:27700", 49.5, 61, -9, 2.5)]
    [InlineData("luref", "EPSG:4181", "EPSG:2169", 49.4, 50.2, 5.7, 6.6)]
    [InlineData("mga55", "EPSG:4283", "EPSG:28355", -60, -9, 144, 150)]
    [InlineData("nztm", "EPSG:4167", "EPSG:2193", -48, -34, 166, 179)]
    [InlineData("japan9", "EPSG:4612", "EPSG:2451", 29, 38, 138, 141)]
    [InlineData("gigs G11", "EPSG:4190", "EPSG:22175", -55, -22, -61.5, -58.5)]
    public void A_grid_of_points_agrees_with_PROJ_both_ways(
        string key, string geographic, string projected, double south, double north, double west, double east)
    {
        var crs = ReferenceFiles.System(key);
        var points = Grid(south, north, west, east, 15);
        var theirs = Cs2cs(geographic, projected, points.Select(p => (p.LatitudeDegrees, p.LongitudeDegrees)), decimals: 7);
        for (var i = 0; i < points.Length; i++)
        {
            var ours = ProjectionReferenceTests.Forward(crs, points[i]);
            var (first, second) = crs.ToWritten(ours);
            first.ShouldBe(theirs[i].First, 1e-5, $"{projected} at {points[i]}");
            second.ShouldBe(theirs[i].Second, 1e-5, $"{projected} at {points[i]}");
        }

        var back = Cs2cs(projected, geographic, theirs, decimals: 12);
        for (var i = 0; i < points.Length; i++)
        {
            var ours = ProjectionReferenceTests.Inverse(crs, crs.FromWritten(theirs[i].First, theirs[i].Second));
            ours.LatitudeDegrees.ShouldBe(back[i].First, 1e-10, $"{projected} at {points[i]}");
            ours.LongitudeDegrees.ShouldBe(back[i].Second, 2e-10, $"{projected} at {points[i]}");
        }
    }

    internal static GeographicCoordinate[] Grid(double south, double north, double west, double east, int side)
    {
        var points = new GeographicCoordinate[side * side];
        for (var i = 0; i < points.Length; i++)
            points[i] = new(south + (north - south) * (i / side) / (side - 1), west + (east - west) * (i % side) / (side - 1));
        return points;
    }

    /// <summary>Runs the installed cs2cs on the points, in the axis order that the EPSG register gives each system.</summary>
    internal static (double First, double Second)[] Cs2cs(string from, string to, IEnumerable<(double First, double Second)> points, int decimals) =>
        Run("cs2cs", ["-f", $"%.{decimals}f", from, to], points, "");

    /// <summary>Runs the installed cct on one operation of the register, in its own axis order, heights taken as 0.</summary>
    internal static (double First, double Second)[] Cct(string operation, IEnumerable<(double First, double Second)> points) =>
        Run("cct", ["-d", "12", operation], points, " 0 0");

    private static (double First, double Second)[] Run(
        string program, IReadOnlyList<string> arguments, IEnumerable<(double First, double Second)> points, string rest)
    {
        var input = new StringBuilder();
        foreach (var (first, second) in points) input.Append(CultureInfo.InvariantCulture, $"{first:R} {second:R}{rest}\n");
        var start = new ProcessStartInfo(program) { RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (var argument in arguments) start.ArgumentList.Add(argument);
        using var process = Process.Start(start) ?? throw new InvalidOperationException($"{program} did not start; it comes with Debian's package proj-bin.");
        var output = process.StandardOutput.ReadToEndAsync();
        var errors = process.StandardError.ReadToEndAsync();
        process.StandardInput.Write(input);
        process.StandardInput.Close();
        process.WaitForExit();
        process.ExitCode.ShouldBe(0, errors.GetAwaiter().GetResult());
        return [.. output.GetAwaiter().GetResult().Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line =>
        {
            var cells = line.Split((char[])[' ', '\t'], StringSplitOptions.RemoveEmptyEntries);
            return (ReferenceFiles.Number(cells[0]), ReferenceFiles.Number(cells[1]));
        })];
    }
}
