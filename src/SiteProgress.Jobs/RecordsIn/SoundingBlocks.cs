using NodaTime;
using SiteProgress.Core.Ground;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Exchange.SeabedSurveys;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>Puts the soundings of a file together to records of one survey and day, so that a survey of 20,000 soundings is ten records.</summary>
internal static class SoundingBlocks
{
    /// <summary>Name of the survey of a file that names none.</summary>
    private const string Unnamed = "seabed survey";

    /// <summary>Soundings of one record; about 60 kB of it.</summary>
    private const int Most = 2_000;

    /// <summary>The upload with blocks in the place of soundings.</summary>
    public static ReadUpload Put(ReadUpload read)
    {
        Row[] soundings = [.. read.Rows.Cast<Row>()];
        return read with
        {
            Rows = [.. soundings
                .GroupBy(one => (Survey: one.Value.Survey ?? Unnamed, one.Value.SurveyedOn, one.Value.Position.Frame))
                .SelectMany(survey => survey.Chunk(Most).Select(block => Block(survey.Key.Survey, survey.Key.SurveyedOn, survey.Key.Frame, block)))
                .OrderBy(block => block.Line)],
            RowsRecorded = soundings.Length,
            Assumptions = soundings.Any(one => one.Value.Survey is null)
                ? [.. read.Assumptions, $"No survey is named; the soundings are taken as those of one named \u201C{Unnamed}\u201D, told apart by its day."]
                : read.Assumptions,
        };
    }

    private static SeabedSurveyedBody Block(string survey, LocalDate day, Frame frame, Row[] rows)
        => new(rows[0].Line, new SeabedSoundings(survey, day, frame, [.. rows.Select(one => new[] { one.Value.Position.First, one.Value.Position.Second, one.Value.LevelMetres })]));

    /// <summary>A sounding on its way into a block; it is never recorded by itself.</summary>
    internal sealed record Row(long Line, ReadSounding Value) : RecordBody
    {
        public override RecordKind Kind => RecordKind.SeabedSurveyed;
    }
}
