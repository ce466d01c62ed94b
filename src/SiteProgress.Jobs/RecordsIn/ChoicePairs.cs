using System.Globalization;
using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Exchange;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>Choices as names and values: in addresses, in forms, and kept with a batch. The words are for good.</summary>
public static class ChoicePairs
{
    private const int MostColumns = 256;
    private const int LongestValue = 200;

    /// <summary>Name of the choice not to take up what was chosen before; its value is then "no".</summary>
    public static string Remembered => "remembered";

    /// <summary>Words of contents.</summary>
    public static IReadOnlyList<(BatchContent Value, string Word)> Contents { get; } =
    [
        (BatchContent.PlannedPiles, "planned-piles"), (BatchContent.Installations, "installations"), (BatchContent.CheckMeasurements, "check-measurements"),
        (BatchContent.PenetrationTests, "penetration-tests"), (BatchContent.SandDeliveries, "sand-deliveries"), (BatchContent.DiaryEntries, "diary"),
        (BatchContent.PlannedProgress, "planned-progress"), (BatchContent.Calibrations, "calibrations"), (BatchContent.WaterLevels, "water-levels"),
        (BatchContent.PileLogs, "pile-logs"), (BatchContent.SeabedSoundings, "seabed-soundings"),
    ];

    /// <summary>Words of frames.</summary>
    public static IReadOnlyList<(Frame Value, string Word)> Frames { get; } =
        [(Frame.SiteGrid, "site-grid"), (Frame.ProjectedCrs, "projected-crs"), (Frame.Geographic, "geographic")];

    /// <summary>Words of orders of day and month.</summary>
    public static IReadOnlyList<(DayMonthOrder Value, string Word)> Dates { get; } =
        [(DayMonthOrder.DayFirst, "day-first"), (DayMonthOrder.MonthFirst, "month-first")];

    /// <summary>Words of norths.</summary>
    public static IReadOnlyList<(North Value, string Word)> Norths { get; } =
        [(North.TrueNorth, "true"), (North.CrsGrid, "grid"), (North.SiteGrid, "site")];

    /// <summary>Words of delimiters.</summary>
    public static IReadOnlyList<(char Value, string Word)> Delimiters { get; } = [(',', "comma"), (';', "semicolon"), ('\t', "tab"), ('|', "bar")];

    /// <summary>The choices as pairs, in one order.</summary>
    public static IEnumerable<(string Name, string Value)> Of(UploadChoices choices)
    {
        ArgumentNullException.ThrowIfNull(choices);
        IEnumerable<(string Name, string? Value)> simple =
        [
            ("content", Word(Contents, choices.Content)), ("frame", Word(Frames, choices.Frame)), ("dates", Word(Dates, choices.DayMonthOrder)),
            ("delimiter", Word(Delimiters, choices.Delimiter)), ("decimals", choices.DecimalComma switch { true => "comma", false => "point", null => null }),
            ("encoding", choices.Encoding), ("table", choices.Table), ("header", choices.HeaderLine?.ToString(CultureInfo.InvariantCulture)),
            ("times", choices.TimesIn), ("day", choices.DateIsWorkingDay ? "working" : null), ("north", Word(Norths, choices.HeadingNorth)),
            ("depths", Number(choices.Levels.DepthsBelowMetres)), ("zero", Number(choices.Levels.ZeroMetres)), ("down", choices.Levels.DownPositive ? "yes" : null),
            (Remembered, choices.TakesUpRemembered ? null : "no"),
            .. choices.Design.Pairs(),
        ];
        foreach ((string name, string? value) in simple)
        {
            if (value is not null) yield return (name, value);
        }

        foreach (ColumnChoice column in choices.Columns)
        {
            yield return (FormattableString.Invariant($"c{column.Cell}"), column.Column ?? "-");
            if (column.Unit is not null) yield return (FormattableString.Invariant($"u{column.Cell}"), column.Unit);
        }

        foreach (FixedValue value in choices.FixedValues) yield return ($"v.{value.Column}", value.Value);
    }

    /// <summary>The choices of pairs; a name or word nobody knows chooses nothing.</summary>
    public static UploadChoices Read(IEnumerable<(string Name, string Value)> pairs)
    {
        ArgumentNullException.ThrowIfNull(pairs);
        Dictionary<string, string> all = new(StringComparer.Ordinal);
        foreach ((string name, string value) in pairs)
        {
            if (value.Trim() is { Length: > 0 and <= LongestValue } text) all.TryAdd(name, text);
        }

        string? Get(string name) => all.GetValueOrDefault(name);
        return new UploadChoices(Find(Contents, Get("content")), Find(Frames, Get("frame")), Find(Dates, Get("dates")))
        {
            TakesUpRemembered = Get(Remembered) != "no",
            Delimiter = Find(Delimiters, Get("delimiter")),
            DecimalComma = Get("decimals") switch { "comma" => true, "point" => false, _ => null },
            Encoding = Get("encoding") is { } encoding && TextEncodings.Words(encoding) is not null ? encoding : null,
            Table = Get("table"),
            HeaderLine = long.TryParse(Get("header"), NumberStyles.None, CultureInfo.InvariantCulture, out long line) ? line : null,
            TimesIn = Get("times") is { } zone && DateTimeZoneProviders.Tzdb.GetZoneOrNull(zone) is not null ? zone : null,
            DateIsWorkingDay = Get("day") == "working",
            HeadingNorth = Find(Norths, Get("north")),
            Levels = new LevelReading(Metres(Get("depths")), Metres(Get("zero")), Get("down") == "yes"),
            Design = DesignChoice.Read(Get),
            Columns = Columns(all),
            FixedValues = [.. all.Where(pair => pair.Key.StartsWith("v.", StringComparison.Ordinal)).OrderBy(pair => pair.Key, StringComparer.Ordinal).Select(pair => new FixedValue(pair.Key[2..], pair.Value))],
        };
    }

    private static ColumnChoice[] Columns(Dictionary<string, string> all) =>
    [
        .. Enumerable.Range(0, MostColumns)
            .Where(cell => all.ContainsKey(FormattableString.Invariant($"c{cell}")))
            .Select(cell => (Cell: cell, Key: all[FormattableString.Invariant($"c{cell}")]))
            .Select(one => new ColumnChoice(one.Cell, one.Key == "-" ? null : one.Key, all.GetValueOrDefault(FormattableString.Invariant($"u{one.Cell}")))),
    ];

    private static double? Metres(string? text)
        => double.TryParse(text?.Replace('\u2212', '-').Replace(',', '.'), NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double value)
            && Math.Abs(value) < 1000
            ? value
            : null;

    private static string? Number(double? value) => value?.ToString("0.####", CultureInfo.InvariantCulture);

    private static string? Word<T>(IReadOnlyList<(T Value, string Word)> words, T? value)
        where T : struct
        => value is { } chosen ? words.FirstOrDefault(one => one.Value.Equals(chosen)).Word : null;

    private static T? Find<T>(IReadOnlyList<(T Value, string Word)> words, string? word)
        where T : struct
    {
        foreach ((T value, string known) in words)
        {
            if (known == word) return value;
        }

        return null;
    }
}
