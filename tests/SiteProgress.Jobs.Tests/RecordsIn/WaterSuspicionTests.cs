using Shouldly;
using SiteProgress.Jobs.RecordsIn;
using SiteProgress.TestSupport;
using Xunit;

namespace SiteProgress.Jobs.Tests.RecordsIn;

/// <summary>
/// The demo's one shift whose levels were read without the tide (its list of planted mistakes: Tern, 27 April, 18 piles), and all
/// its other shifts, of which nothing may be suspected.
/// </summary>
public sealed class WaterSuspicionTests : IDisposable
{
    private const string Begins = "Tip levels of Tern on 2026-04-27, ";
    private readonly LooseFiles files = new();

    [Fact]
    public void The_shift_without_the_tide_is_named_when_its_file_comes_in()
    {
        FileRead[] read = [.. files.Read(null, [LooseFiles.Seed("tide.csv"), .. AsBuilt()])];

        FileRead told = read.Where(file => Water(file).Any()).ShouldHaveSingleItem();
        told.FileName.ShouldBe("2026-05-09-tern.csv");
        string suspicion = Water(told).ShouldHaveSingleItem();
        suspicion.ShouldStartWith(Begins);
        suspicion.ShouldContain("look read without the water level: those of 18 piles stray");
    }

    [Fact]
    public void It_is_named_as_well_when_the_water_levels_come_after_the_piles()
        => Water(files.Read(null, [.. AsBuilt(), LooseFiles.Seed("tide.csv")])[^1]).ShouldHaveSingleItem().ShouldStartWith(Begins);

    public void Dispose() => files.Dispose();

    private static IEnumerable<string> Water(FileRead file) => file.Suspicions.Where(one => one.Contains("without the water level", StringComparison.Ordinal));

    private static string[] AsBuilt() => [.. Directory.GetFiles(Path.Combine(Checkout.Folder, "seed-data", "as-built")).Order(StringComparer.Ordinal)];
}
