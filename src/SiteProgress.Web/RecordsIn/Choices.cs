using Microsoft.Extensions.Primitives;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Exchange;
using SiteProgress.Jobs.RecordsIn;

namespace SiteProgress.Web.RecordsIn;

/// <summary>What a person chose where a file does not say, in the words of addresses and of people.</summary>
public static class Choices
{
    /// <summary>Contents a file may have.</summary>
    public static readonly IReadOnlyList<(BatchContent Value, string InAddress, string Words)> Contents =
    [
        (BatchContent.PlannedPiles, "planned-piles", "planned piles"),
        (BatchContent.Installations, "installations", "installations as built"),
        (BatchContent.CheckMeasurements, "check-measurements", "check measurements"),
        (BatchContent.PenetrationTests, "penetration-tests", "standard penetration tests"),
        (BatchContent.SandDeliveries, "sand-deliveries", "sand deliveries and stocks"),
        (BatchContent.DiaryEntries, "diary", "diary"),
        (BatchContent.PlannedProgress, "planned-progress", "schedule of progress"),
        (BatchContent.Calibrations, "calibrations", "calibrations"),
        (BatchContent.WaterLevels, "water-levels", "water levels"),
        (BatchContent.SeabedSoundings, "seabed-soundings", "seabed surveys"),
        (BatchContent.PileLogs, "pile-logs", "logs of piles, a sample a row"),
    ];

    /// <summary>Frames positions may be in.</summary>
    public static readonly IReadOnlyList<(Frame Value, string InAddress, string Words)> Frames =
    [
        (Frame.SiteGrid, "site-grid", "site grid"),
        (Frame.ProjectedCrs, "projected-crs", "projected CRS (easting, northing)"),
        (Frame.Geographic, "geographic", "latitude and longitude"),
    ];

    /// <summary>Orders of day and month.</summary>
    public static readonly IReadOnlyList<(DayMonthOrder Value, string InAddress, string Words)> Dates =
    [
        (DayMonthOrder.DayFirst, "day-first", "day/month/year"),
        (DayMonthOrder.MonthFirst, "month-first", "month/day/year"),
    ];

    /// <summary>Norths a heading may be counted from.</summary>
    public static readonly IReadOnlyList<(North Value, string InAddress, string Words)> Norths =
    [
        (North.TrueNorth, "true", "true north"),
        (North.CrsGrid, "grid", "grid north of the projected CRS"),
        (North.SiteGrid, "site", "second axis of the site grid"),
    ];

    /// <summary>Delimiters of a text.</summary>
    public static readonly IReadOnlyList<(char Value, string InAddress, string Words)> Delimiters =
    [
        (',', "comma", "comma"),
        (';', "semicolon", "semicolon"),
        ('\t', "tab", "tab"),
        ('|', "bar", "vertical bar"),
    ];

    /// <summary>The choices of an address or a form; a word nobody knows chooses nothing.</summary>
    public static UploadChoices Read(IEnumerable<KeyValuePair<string, StringValues>> sent)
    {
        ArgumentNullException.ThrowIfNull(sent);
        return ChoicePairs.Read(sent.Select(pair => (pair.Key, pair.Value.ToString())));
    }

    /// <summary>The choices as the query of an address, with its question mark; empty where nothing is chosen.</summary>
    public static string Query(UploadChoices choices)
    {
        string[] parts = [.. ChoicePairs.Of(choices).Select(pair => $"{Uri.EscapeDataString(pair.Name)}={Uri.EscapeDataString(pair.Value)}")];
        return parts.Length == 0 ? "" : "?" + string.Join('&', parts);
    }

    /// <summary>What the rows are, in words.</summary>
    public static string Words(BatchContent content) => Contents.First(one => one.Value == content).Words;

    /// <summary>The word of an address for a choice; null where nothing is chosen.</summary>
    public static string? InAddress<T>(IReadOnlyList<(T Value, string InAddress, string Words)> choices, T? chosen)
        where T : struct
        => chosen is { } value ? choices.First(one => one.Value.Equals(value)).InAddress : null;
}
