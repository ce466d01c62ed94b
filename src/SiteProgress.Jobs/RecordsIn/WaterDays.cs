using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Exchange.WaterLevels;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>Puts the readings of a series together to one record for each gauge and day (UTC): a year of readings is 365 records, not 50,000.</summary>
internal static class WaterDays
{
    /// <summary>Name of the gauge of a file that names none.</summary>
    private const string Unnamed = "site";

    /// <summary>The upload with days in the place of readings.</summary>
    public static ReadUpload Put(ReadUpload read)
    {
        Reading[] readings = [.. read.Rows.Cast<Reading>()];
        bool unnamed = readings.Any(one => one.Value.Gauge is null);
        return read with
        {
            Rows = [.. readings
                .GroupBy(one => (Gauge: one.Value.Gauge ?? Unnamed, Day: one.Value.At.InUtc().Date))
                .OrderBy(day => day.Min(one => one.Line))
                .Select(day => Day(day.Key.Gauge, day.Key.Day, [.. day]))],
            RowsRecorded = readings.Length,
            Assumptions = unnamed ? [.. read.Assumptions, $"No gauge is named; the readings are taken as those of the gauge \u201C{Unnamed}\u201D."] : read.Assumptions,
        };
    }

    private static WaterLevelsBody Day(string gauge, LocalDate day, Reading[] readings)
    {
        Instant from = day.AtMidnight().InUtc().ToInstant();
        return new WaterLevelsBody(
            readings.Min(one => one.Line),
            new WaterLevels(gauge, from, [.. readings.OrderBy(one => one.Value.At).Select(one => new[] { (one.Value.At - from).TotalSeconds, one.Value.Metres })]));
    }

    /// <summary>A reading on its way into a day; it is never recorded by itself.</summary>
    internal sealed record Reading(long Line, WaterReading Value) : RecordBody
    {
        public override RecordKind Kind => RecordKind.WaterLevelsObserved;
    }
}
