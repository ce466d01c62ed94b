using System.Globalization;
using System.Text;
using System.Text.Json;
using Shouldly;
using SiteProgress.Web.Commands;
using Xunit;

namespace SiteProgress.Web.Tests.Deviations;

/// <summary>A table of another program reviewed from a shell; no store is asked.</summary>
public sealed class ReviewDeviationsCommandTests : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("siteprogress-review-");

    public void Dispose() => folder.Delete(recursive: true);

    [Fact]
    public async Task A_casing_that_is_off_in_an_outside_table_is_found()
    {
        StringBuilder table = new("Pile No,Barge,Casing,Set-up,End,Heading grid [deg],dE [m],dN [m]\n");
        Random chance = new(3);
        for (int place = 0; place < 360; place++)
        {
            int setUp = place / 3, casing = (place % 3) + 1;
            double off = casing == 2 && setUp is >= 40 and < 80 ? 0.2 : 0;
            table.Append(CultureInfo.InvariantCulture,
                $"P{place},Rig 7,{casing},S{setUp},2026-03-{1 + (setUp / 8):00}T{6 + (setUp % 8):00}:{casing:00}:00Z,0,{0.04 * (chance.NextDouble() - 0.5):F4},{off + (0.04 * (chance.NextDouble() - 0.5)):F4}\n");
        }

        (int status, string error, JsonElement answer) = await ReviewAsync(table.ToString(), "150");

        status.ShouldBe(0, error);
        answer.GetProperty("figures").GetProperty("count").GetInt32().ShouldBe(360);
        JsonElement claim = answer.GetProperty("findings").GetProperty("claims").EnumerateArray().ShouldHaveSingleItem();
        claim.GetProperty("named").GetProperty("cause").GetProperty("casing").GetInt32().ShouldBe(2);
        claim.GetProperty("fromDay").GetString().ShouldBe("2026-03-06");
        claim.GetProperty("toDay").GetString().ShouldBe("2026-03-10");
        claim.GetProperty("sizeMetres").GetDouble().ShouldBe(0.2, 0.02);
    }

    [Fact]
    public async Task Positions_stand_for_deviations_and_a_row_that_cannot_be_read_is_told()
    {
        (int status, string error, JsonElement answer) = await ReviewAsync(
            "Pile No;Barge;Easting design [m];Northing design [m];Easting as built [m];Northing as built [m];Radial limit [m]\nA1;Tern;452178,366;3890605,770;452178,416;3890605,770;0,15\nA2;Tern;452180,466;3890605,770;;;0,15\n");

        status.ShouldBe(1);
        error.ShouldContain("Line 3");
        error.ShouldContain("dE and dN, or the design and the as-built position");
        answer.GetProperty("figures").GetProperty("largestRadialMetres").GetDouble().ShouldBe(0.05, 1e-6);
    }

    [Fact]
    public async Task Without_a_limit_the_row_is_told_so()
        => (await ReviewAsync("Pile No,Barge,dE [m],dN [m]\nA1,Tern,0.01,0.02\n")).Error.ShouldContain("a limit in the row");

    private async Task<(int Status, string Error, JsonElement Answer)> ReviewAsync(string table, params string[] more)
    {
        string file = Path.Combine(folder.FullName, "in.csv");
        await File.WriteAllTextAsync(file, table);
        using StringWriter output = new(), error = new();
        int status = await CommandLine.RunAsync(["review-deviations", file, .. more], output, error);
        return (status, error.ToString(), output.ToString().Length == 0 ? default : JsonDocument.Parse(output.ToString()).RootElement);
    }
}
