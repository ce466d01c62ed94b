using System.Text.Json.Serialization;
using NodaTime;
using SiteProgress.Core.Logs;
using SiteProgress.Jobs.Attachments;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Piles;

/// <summary>
/// The log of a pile as the chart draws it: one time, a panel for each channel that was logged. A value that was not read is
/// null.
/// </summary>
/// <param name="FirstSample">Time of the first sample.</param>
/// <param name="TimeZone">Time zone of the site.</param>
/// <param name="Moments">Time of each sample: seconds of the site's day on which the log began, going on over midnight.</param>
/// <param name="Panels">The panels, uppermost first.</param>
/// <param name="Marks">Events by the numbers they carry in chart and table.</param>
internal sealed record LogChartData(
    Instant FirstSample, string TimeZone, IReadOnlyList<double> Moments, IReadOnlyList<LogChartData.Panel> Panels, IReadOnlyList<LogChartData.Mark> Marks)
{
    /// <summary>Height of the panel of levels, CSS pixels; the drawing of the pile beside it has the same.</summary>
    public const int LevelPanelHeight = 340;

    /// <summary>A line of samples.</summary>
    /// <param name="Name">What it is.</param>
    /// <param name="Values">Its values, one a moment.</param>
    public sealed record Series(string Name, IReadOnlyList<double?> Values);

    /// <summary>A level that is drawn across a panel.</summary>
    /// <param name="At">Its value.</param>
    /// <param name="Name">What it is.</param>
    public sealed record Line(double At, string Name);

    /// <summary>A lane of phases.</summary>
    /// <param name="Name">The phase.</param>
    /// <param name="Spans">From and to, as moments.</param>
    public sealed record Lane(string Name, IReadOnlyList<double[]> Spans);

    /// <summary>An event.</summary>
    /// <param name="Number">Number in chart and table.</param>
    /// <param name="At">Moment it began.</param>
    /// <param name="Level">Level of the tip then; null where it has none.</param>
    /// <param name="Kind">What happened.</param>
    public sealed record Mark(int Number, double At, double? Level, string Kind);

    /// <summary>One panel.</summary>
    public sealed record Panel
    {
        /// <summary>What it shows, with its unit.</summary>
        public required string Title { get; init; }

        /// <summary>Unit of its values.</summary>
        public string Unit { get; init; } = "";

        /// <summary>Decimals of its values.</summary>
        public int Decimals { get; init; }

        /// <summary>Height, CSS pixels.</summary>
        public int Height { get; init; }

        /// <summary>Lines of samples; the second and later ones are dashed.</summary>
        public IReadOnlyList<Series> Series { get; init; } = [];

        /// <summary>Lowest value shown; null: by the values.</summary>
        [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        public double? Low { get; init; }

        /// <summary>Highest value shown; null: by the values.</summary>
        [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        public double? High { get; init; }

        /// <summary>Levels drawn across.</summary>
        [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        public IReadOnlyList<Line>? Lines { get; init; }

        /// <summary>Phases as lanes.</summary>
        [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        public IReadOnlyList<Lane>? Lanes { get; init; }

        /// <summary>Charges: moment and size.</summary>
        [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        public IReadOnlyList<double[]>? Sticks { get; init; }

        /// <summary>Words for the values of a switch.</summary>
        [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
        public IReadOnlyDictionary<int, string>? Words { get; init; }

        /// <summary>True where a value holds until the next one.</summary>
        public bool Stepped { get; init; }

        /// <summary>True where the numbers of events are drawn.</summary>
        public bool Marked { get; init; }
    }

    /// <summary>The chart of a log.</summary>
    public static LogChartData Of(PileLogView view)
    {
        double first = SecondsOfDay(view.Log.FirstSample, view.TimeZone);
        LogColumns columns = LogColumns.Of(view.Log, view.Context);
        double[] moments = [.. columns.Seconds.ToArray().Select(seconds => Math.Round(first + seconds, 3))];
        IReadOnlyList<Mark> marks = [.. view.Reading.Events.Select((one, place) => new Mark(place + 1, first + one.FromSeconds, double.IsFinite(one.FromLevelMetres) ? one.FromLevelMetres : null, LogWords.Of(one.Kind)))];
        return new LogChartData(view.Log.FirstSample, view.TimeZone, moments, LogPanels.Of(view, columns, moments, first, view.LevelDatum), marks);
    }

    private static double SecondsOfDay(Instant first, string timeZone)
        => first.InZone(new SiteTime(timeZone).Zone).TimeOfDay.NanosecondOfDay / 1e9;
}
