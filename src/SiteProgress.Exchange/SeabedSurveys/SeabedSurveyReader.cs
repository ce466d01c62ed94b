using System.Globalization;
using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.SeabedSurveys;

/// <summary>Columns of a seabed survey, one sounding a row.</summary>
internal sealed class SeabedSurveyLayout : TableLayout
{
    /// <param name="axes">Names of the axes of the site grid.</param>
    public SeabedSurveyLayout(GridAxes axes)
        : base("seabed surveys", axes)
    {
        // The day has to stand in the file: before or after the piles is the whole question, and a date of export answers it wrongly.
        SurveyedOn = Text("Surveyed on", required: true, "Survey date", "Date of survey", "Sounded on", "Sounding date");
        Survey = Text("Survey", required: false, "Survey name", "Name of survey");
        Place = Position("", required: true, Frame.SiteGrid, Frame.ProjectedCrs, Frame.Geographic);
        Metres = Level(
            "Seabed level", ["Seabed", "Bed level", "Mudline level", "Mudline", "Sounding level", "Reduced level", "RL", "Level", "Z", "Elevation"],
            ["Sounding", "Depth", "Seabed depth", "Charted depth"], required: true);
    }

    public Column SurveyedOn { get; }

    public Column Survey { get; }

    public PositionColumns Place { get; }

    public Column Metres { get; }
}

/// <summary>One sounding as read.</summary>
/// <param name="Survey">Name of its survey; null where the file names none.</param>
/// <param name="SurveyedOn">Day of the survey.</param>
/// <param name="Position">Where, in the frame of the file.</param>
/// <param name="LevelMetres">Level of the seabed, metres above the site's level datum.</param>
public sealed record ReadSounding(string? Survey, LocalDate SurveyedOn, RecordedPosition Position, double LevelMetres);

/// <summary>Reads seabed surveys from a table.</summary>
public static class SeabedSurveyReader
{
    /// <summary>Most soundings of one file. A survey is laid on the site in steps of a metre or two; the raw swath of an echo sounder is not what is kept here.</summary>
    public const int MostSoundings = 200_000;

    /// <summary>Reads soundings. Position, level and day must be there.</summary>
    /// <param name="stream">The file.</param>
    /// <param name="choices">What to read with.</param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <returns>Soundings with positions in the frame of the file, levels in metres, and every problem by line.</returns>
    /// <exception cref="OperationCanceledException">The reading was ended.</exception>
    public static TableReading<ReadSounding> Read(Stream stream, ReadingChoices choices, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(choices);
        var layout = new SeabedSurveyLayout(choices.GridAxes);
        var count = 0;
        return TableWalk<ReadSounding>.Read(stream, choices, layout, row => ReadRow(row, layout, ref count), cancellation);
    }

    private static ReadSounding? ReadRow(RowCells row, SeabedSurveyLayout layout, ref int count)
    {
        var day = DayCell.Read(row, layout.SurveyedOn);
        var survey = row.Text(layout.Survey, 80);
        var position = row.Position(layout.Place);
        var level = row.Number(layout.Metres);
        row.Require(layout.SurveyedOn, "the day of the survey");
        row.Require(layout.Metres, "a level of the seabed");
        if (row.IsBad || day is null || position is null || level is null) return null;
        if (++count > MostSoundings)
        {
            if (count == MostSoundings + 1)
                row.Problem(layout.Metres.Title, "", string.Create(CultureInfo.InvariantCulture, $"at most {MostSoundings} soundings in one file; lay the survey on a wider raster first"));
            return null;
        }

        return new ReadSounding(survey, day.Value, position.Value, level.Value);
    }
}
