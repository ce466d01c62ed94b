using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.SeabedSurveys;

namespace SiteProgress.Exchange.Tests;

/// <summary>Seabed surveys: a day, a place and a level each, and nothing taken for granted.</summary>
public sealed class SeabedSurveyTests
{
    [Fact]
    public void A_sounding_keeps_its_survey_day_place_and_level()
    {
        var reading = Read("Survey,Surveyed on,X [m],Y [m],Seabed level [m]\nBefore,2026-02-20,1000.5,2010,-12.13\nBefore,20.02.2026,1002.5,2010,-12.17\n");

        reading.Problems.ShouldBeEmpty();
        reading.Rows.Select(row => row.Value).ShouldBe(
        [
            new ReadSounding("Before", new LocalDate(2026, 2, 20), new RecordedPosition(Frame.SiteGrid, 1000.5, 2010), -12.13),
            new ReadSounding("Before", new LocalDate(2026, 2, 20), new RecordedPosition(Frame.SiteGrid, 1002.5, 2010), -12.17),
        ]);
    }

    [Theory]
    [InlineData("Survey date,Easting,Northing,RL\n2026-02-20,391000,6162000,-12.1\n", Frame.ProjectedCrs)]
    [InlineData("Sounded on,Lat,Long,Mudline (m)\n2026-02-20,55.6,7.3,-12.1\n", Frame.Geographic)]
    public void Usual_titles_are_known(string file, Frame frame)
    {
        var reading = Read(file);

        reading.Problems.ShouldBeEmpty();
        var sounding = reading.Rows.ShouldHaveSingleItem().Value;
        (sounding.Position.Frame, sounding.LevelMetres).ShouldBe((frame, -12.1));
        FileKindGuess.From(Given.Bytes(file), Given.Choices, TestContext.Current.CancellationToken).Kind.ShouldBe(FileKind.SeabedSoundings);
    }

    [Theory]
    [InlineData(",1000,2000,-12.1", "the day of the survey")]
    [InlineData("31.02.2026,1000,2000,-12.1", "a date such as 2026-03-10")]
    [InlineData("2026-02-20,1000,2000,", "a level of the seabed")]
    [InlineData("2026-02-20,1000,2000,-12130", "this looks like millimetres")]
    [InlineData("2026-02-20,1000,,-12.1", "Y")]
    [InlineData("2026-02-20,1000,2000,deep", "")]
    public void A_sounding_that_cannot_be_meant_is_told_by_its_line(string row, string expected)
    {
        var reading = Read("Surveyed on,X [m],Y [m],Seabed level [m]\n" + row + "\n");

        reading.Rows.ShouldBeEmpty();
        var problem = reading.Problems.ShouldHaveSingleItem();
        problem.Line.ShouldBe(2);
        problem.Sentence.ShouldContain(expected);
    }

    [Fact]
    public void A_survey_without_a_day_is_refused_as_a_whole()
        => Read("X [m],Y [m],Seabed level [m]\n1000,2000,-12.1\n").Problems.ShouldContain(problem => problem.WholeFile && problem.Sentence.Contains("Surveyed on", StringComparison.Ordinal));

    [Fact]
    public void Depths_are_not_taken_for_levels_in_silence()
    {
        var reading = Read("Surveyed on,X [m],Y [m],Depth [m]\n2026-02-20,1000,2000,12.1\n");

        (reading.Questions.Count + reading.Problems.Count + reading.Assumptions.Count).ShouldBeGreaterThan(0);
        reading.Rows.ShouldAllBe(row => row.Value.LevelMetres < 0);
    }

    private static TableReading<ReadSounding> Read(string file) => SeabedSurveyReader.Read(Given.Bytes(file), Given.Choices, TestContext.Current.CancellationToken);
}
