using System.Text;
using NodaTime;
using SiteProgress.Core.Ground;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.GroundInvestigations;

namespace SiteProgress.Exchange.Tests.GroundInvestigations;

/// <summary>AGS4 files; the rule of the format (AGS4 edition 4.1.1) stands beside each.</summary>
public sealed class AgsTests
{
    private const string Project = "\"GROUP\",\"PROJ\"\r\n\"HEADING\",\"PROJ_ID\"\r\n\"UNIT\",\"\"\r\n\"TYPE\",\"ID\"\r\n\"DATA\",\"P1\"\r\n\r\n";

    private const string Locations =
        "\"GROUP\",\"LOCA\"\r\n\"HEADING\",\"LOCA_ID\",\"LOCA_NATE\",\"LOCA_NATN\",\"LOCA_GL\",\"LOCA_LOCX\",\"LOCA_LOCY\"\r\n\"UNIT\",\"\",\"m\",\"m\",\"m\",\"m\",\"m\"\r\n"
        + "\"TYPE\",\"ID\",\"2DP\",\"2DP\",\"2DP\",\"2DP\",\"2DP\"\r\n\"DATA\",\"BH01\",\"392796.60\",\"6162897.29\",\"-12.40\",\"\",\"\"\r\n\"DATA\",\"BH02\",\"392800.00\",\"6162890.00\",\"-12.10\",\"\",\"\"\r\n\r\n";

    private const string Tests =
        "\"GROUP\",\"ISPT\"\r\n\"HEADING\",\"LOCA_ID\",\"ISPT_TOP\",\"ISPT_SEAT\",\"ISPT_MAIN\",\"ISPT_NPEN\",\"ISPT_NVAL\",\"ISPT_REP\",\"ISPT_TYPE\",\"ISPT_ERAT\"\r\n"
        + "\"UNIT\",\"\",\"m\",\"\",\"\",\"mm\",\"\",\"\",\"\",\"%\"\r\n\"TYPE\",\"ID\",\"2DP\",\"0DP\",\"0DP\",\"0DP\",\"0DP\",\"X\",\"PA\",\"0DP\"\r\n"
        // The self-check of the AGS4 dictionary: 6,8/8,9,9,9 N=35 is a seating of 14 and a main drive of 35 blows over 450 mm.
        + "\"DATA\",\"BH01\",\"13.50\",\"14\",\"35\",\"450\",\"35\",\"6,8/8,9,9,9 N=35\",\"S\",\"60\"\r\n"
        + "\"DATA\",\"BH02\",\"15.00\",\"25\",\"50\",\"230\",\"\",\"25/75 mm, 50/80 mm \"\"refusal\"\"\",\"S\",\"60\"\r\n";

    [Fact]
    public void Penetration_tests_come_with_the_place_of_their_borehole()
    {
        var reading = Read(Project + Locations + Tests).WithoutProblems();

        reading.Rows[0].Value.ShouldBe(new PenetrationTest(
            "BH01", new RecordedPosition(Frame.ProjectedCrs, 392796.60, 6162897.29), -12.40, 13.5, 35, 14, 35, 450, 60, "S", "6,8/8,9,9,9 N=35", null));
        // Refusal: the report's words are kept, and no N is made of them. Rule 5: quotation marks within a field are doubled.
        (reading.Rows[1].Value.Blows, reading.Rows[1].Value.Reported).ShouldBe((null, "25/75 mm, 50/80 mm \"refusal\""));
        reading.Assumptions[0].ShouldBe("Read as an AGS4 file, group ISPT; header on line 16.");
        reading.Header!.Tables.ShouldBe(["ISPT", "PROJ", "LOCA"]);
    }

    [Fact]
    public void The_last_day_of_work_on_the_borehole_is_the_day_of_its_tests()
    {
        string dated = Locations.Replace("\"LOCA_LOCY\"", "\"LOCA_LOCY\",\"LOCA_STAR\",\"LOCA_ENDD\"", StringComparison.Ordinal)
            .Replace("\"m\",\"m\",\"m\",\"m\",\"m\"\r\n", "\"m\",\"m\",\"m\",\"m\",\"m\",\"yyyy-mm-dd\",\"yyyy-mm-dd\"\r\n", StringComparison.Ordinal)
            .Replace("\"2DP\"\r\n", "\"2DP\",\"DT\",\"DT\"\r\n", StringComparison.Ordinal)
            .Replace("-12.40\",\"\",\"\"", "-12.40\",\"\",\"\",\"2026-04-18\",\"2026-04-20\"", StringComparison.Ordinal)
            .Replace("-12.10\",\"\",\"\"", "-12.10\",\"\",\"\",\"2026-04-21\",\"soon\"", StringComparison.Ordinal);

        var reading = Read(Project + dated + Tests);

        reading.Rows.Select(row => row.Value.TestedOn).ShouldBe([new LocalDate(2026, 4, 20), null]);
        reading.Problems.ShouldBeEmpty();
    }

    [Fact]
    public void The_kind_is_told_by_the_groups()
        => FileKindGuess.From(Stream(Project + Locations + Tests), Given.Choices, TestContext.Current.CancellationToken).Kind.ShouldBe(FileKind.PenetrationTests);

    [Theory]
    [InlineData("\"GROUP\",\"\"\r\n", "on line 7 the name of a group (AGS4 rule 4)")]
    [InlineData("\"GROUP\",\"ISPT\"\r\n\"HEADING\",\"LOCA_ID\",\"ISPT_TOP\"\r\n\"UNIT\",\"\"\r\n", "on line 9 3 fields as in the HEADING row (AGS4 rule 4)")]
    [InlineData("\"GROUP\",\"ISPT\"\r\n\"HEADINGS\",\"LOCA_ID\"\r\n", "on line 8 a row that begins with GROUP, HEADING, UNIT, TYPE or DATA (AGS4 rule 3)")]
    [InlineData("\"GROUP\",\"PROJ\"\r\n", "on line 7 each group once; PROJ came before")]
    [InlineData("\"GROUP\",\"ISPT\"\r\n\"HEADING\",\"LOCA_ID\r\n", "on line 8 a row of fields in quotation marks (AGS4 rules 4 and 5)")]
    public void A_broken_rule_is_named_with_its_line(string rows, string expected)
    {
        var reading = Read(Project + rows);

        reading.TheProblem().Expected.ShouldBe(expected);
        reading.Rows.ShouldBeEmpty();
    }

    [Fact]
    public void A_table_of_tests_is_read_like_any_other()
    {
        var reading = Read("Borehole,Test depth [m],N value,X [m],Y [m]\nBH1,12.5,8,1000,2000\nBH1,14.0,1.5,1000,2000\nBH1,,5,1000,2000\nBH1,15,,1000,2000\n");

        reading.Rows.Single().Value.Position.ShouldBe(new RecordedPosition(Frame.SiteGrid, 1000, 2000));
        reading.Problems.Select(problem => (problem.Line, problem.Expected)).ShouldBe(
            [(3, "a whole number between 0 and 1000"), (4, "the depth of the test below the ground"), (5, "N, or the result as reported")]);
    }

    private static MemoryStream Stream(string text) => new(Encoding.UTF8.GetBytes(text));

    private static TableReading<PenetrationTest> Read(string text)
        => PenetrationTestReader.Read(Stream(text), Given.Choices with { ProjectedCrs = 25832 }, TestContext.Current.CancellationToken);
}
