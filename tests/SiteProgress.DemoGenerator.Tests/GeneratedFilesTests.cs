using System.Globalization;
using System.Text;
using Shouldly;
using SiteProgress.DemoGenerator.Files;
using Xunit;

namespace SiteProgress.DemoGenerator.Tests;

public class GeneratedFilesTests
{
    [Fact]
    public void The_committed_files_are_byte_for_byte_what_the_generator_writes()
    {
        var made = DemoFiles.Make(new DemoSite(DemoSite.StandardSeed));
        SeedData.Names.ShouldBe(made.Keys.Order(StringComparer.Ordinal));
        foreach (var (name, bytes) in made)
            SeedData.Unpacked(name, SeedData.Bytes(name)).AsSpan().SequenceEqual(SeedData.Unpacked(name, bytes)).ShouldBeTrue(name + " was edited by hand or not generated again");
    }

    [Fact]
    public void The_culture_of_the_machine_does_not_change_the_files()
    {
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            var german = DemoFiles.Make(new DemoSite(7));
            CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
            var plain = DemoFiles.Make(new DemoSite(7));
            foreach (var (name, bytes) in plain) german[name].AsSpan().SequenceEqual(bytes).ShouldBeTrue(name);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void Another_seed_makes_another_site_with_the_same_design()
    {
        var made = DemoFiles.Make(new DemoSite(7));
        made["planned-piles-zone-a.csv"].AsSpan().SequenceEqual(SeedData.Bytes("planned-piles-zone-a.csv")).ShouldBeTrue();
        made["truth/truth.csv"].AsSpan().SequenceEqual(SeedData.Bytes("truth/truth.csv")).ShouldBeFalse();
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Any_seed_makes_a_whole_site_with_every_kind_of_fault(int seed)
    {
        var site = new DemoSite(seed);
        DemoFiles.Make(site).Count.ShouldBeGreaterThan(25);
        site.Planting.Faults.Select(fault => fault.Code).Distinct().Count().ShouldBe(10);
    }

    [Fact]
    public void All_files_together_stay_small_enough_to_read() =>
        SeedData.Names.Where(name => !name.StartsWith("logs/", StringComparison.Ordinal)).Sum(name => SeedData.Bytes(name).Length).ShouldBeLessThan(3_000_000);

    [Fact]
    public void The_three_crews_write_three_looks()
    {
        var tern = Encoding.UTF8.GetString(SeedData.Bytes(SeedData.AsBuilt("tern").First()));
        tern.ShouldStartWith("Record,Pile No,Barge");
        tern.ShouldContain(" ,Tern,");
        var plover = SeedData.Bytes(SeedData.AsBuilt("plover").First());
        plover[..3].ShouldBe([0xEF, 0xBB, 0xBF]);
        Encoding.UTF8.GetString(plover[3..]).Split("\r\n")[..2].ShouldAllBe(line => line.StartsWith("# ", StringComparison.Ordinal));
        var curlew = Encoding.UTF8.GetString(SeedData.Bytes(SeedData.AsBuilt("curlew").First()));
        curlew.ShouldStartWith("record\tpile_no\tbarge");
        curlew.ShouldNotContain("inclination");
        curlew.ShouldContain("CURLEW");
    }

    [Fact]
    public void The_night_in_which_the_clocks_change_is_worked_and_no_time_falls_into_the_missing_hour()
    {
        var curlew = SeedData.AsBuilt("curlew").SelectMany(SeedData.Rows).SelectMany(Times).ToList();
        curlew.ShouldContain(time => time.StartsWith("2026-03-29T01", StringComparison.Ordinal) && time.EndsWith("+01:00", StringComparison.Ordinal));
        curlew.ShouldContain(time => time.StartsWith("2026-03-29T03", StringComparison.Ordinal) && time.EndsWith("+02:00", StringComparison.Ordinal));
        var tern = SeedData.AsBuilt("tern").SelectMany(SeedData.Rows).SelectMany(Times).ToList();
        tern.ShouldContain(time => time.StartsWith("2026-03-29T0", StringComparison.Ordinal));
        tern.Concat(curlew).ShouldNotContain(time => time.StartsWith("2026-03-29T02", StringComparison.Ordinal));
    }

    [Fact]
    public void The_readme_names_every_file()
    {
        var readme = Encoding.UTF8.GetString(SeedData.Bytes("README.md"));
        foreach (var name in SeedData.Names.Where(name => !name.StartsWith("as-built/", StringComparison.Ordinal) && !name.StartsWith("logs/", StringComparison.Ordinal) && name != "README.md"))
            readme.ShouldContain(name.StartsWith("planned-piles-zone-", StringComparison.Ordinal) ? name["planned-piles-zone".Length..] : name);
    }

    private static IEnumerable<string> Times(IReadOnlyDictionary<string, string> row) => [row["start"], row["end penetration"], row["end"]];
}
