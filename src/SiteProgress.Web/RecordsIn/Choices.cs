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
        (BatchContent.SandDeliveries, "sand-deliveries", "sand deliveries and stocks"),
        (BatchContent.DiaryEntries, "diary", "diary"),
        (BatchContent.PlannedProgress, "planned-progress", "schedule of progress"),
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

    /// <summary>The choices of an address; a word nobody knows chooses nothing.</summary>
    public static UploadChoices Read(string? content, string? frame, string? dates)
        => new(Find(Contents, content), Find(Frames, frame), Find(Dates, dates));

    /// <summary>The choices as the query of an address, with its question mark; empty where nothing is chosen.</summary>
    public static string Query(UploadChoices choices)
    {
        ArgumentNullException.ThrowIfNull(choices);
        string[] parts = [.. Pairs(choices).Select(pair => $"{pair.Name}={pair.Value}")];
        return parts.Length == 0 ? "" : "?" + string.Join('&', parts);
    }

    /// <summary>The choices as names and values, for a form's hidden fields.</summary>
    public static IEnumerable<(string Name, string Value)> Pairs(UploadChoices choices)
    {
        ArgumentNullException.ThrowIfNull(choices);
        if (InAddress(Contents, choices.Content) is { } content) yield return ("content", content);
        if (InAddress(Frames, choices.Frame) is { } frame) yield return ("frame", frame);
        if (InAddress(Dates, choices.DayMonthOrder) is { } dates) yield return ("dates", dates);
    }

    /// <summary>What the rows are, in words.</summary>
    public static string Words(BatchContent content) => Contents.First(one => one.Value == content).Words;

    /// <summary>The word of an address for a choice; null where nothing is chosen.</summary>
    public static string? InAddress<T>(IReadOnlyList<(T Value, string InAddress, string Words)> choices, T? chosen)
        where T : struct, Enum
        => chosen is { } value ? choices.First(one => one.Value.Equals(value)).InAddress : null;

    private static T? Find<T>(IReadOnlyList<(T Value, string InAddress, string Words)> choices, string? word)
        where T : struct, Enum
    {
        foreach (var (value, inAddress, _) in choices)
        {
            if (inAddress == word) return value;
        }

        return null;
    }
}
