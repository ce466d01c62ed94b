using System.Globalization;
using System.IO.Compression;
using SiteProgress.DemoGenerator.Logs;
using SiteProgress.DemoGenerator.Work;

namespace SiteProgress.DemoGenerator.Files;

/// <summary>The logs of piles, a packed text table a barge and day, and what is true of them.</summary>
public static class LogFiles
{
    public const string Folder = "logs/";

    /// <summary>A file a barge and working day; the piles with a fault of other days stand together in one file a barge.</summary>
    public static string NameOf(SiteLog log, DateOnly firstWholeDay) => Folder
        + (log.Of.WorkingDay >= firstWholeDay ? SiteTime.Iso(log.Of.WorkingDay) : "single-piles") + "-" + log.Of.Barge.Name.ToLowerInvariant() + ".csv.gz";

    /// <summary>The files with the logs of each, in order of time.</summary>
    public static IEnumerable<(string Name, byte[] Bytes)> Write(IReadOnlyList<SiteLog> logs)
    {
        var first = FirstWholeDay(logs);
        return logs.GroupBy(log => NameOf(log, first)).Select(file => (file.Key, Packed(TextFile.Bytes([Header(file.First()), .. file.SelectMany(Rows)]))));
    }

    public static DateOnly FirstWholeDay(IReadOnlyList<SiteLog> logs) => logs.Select(log => log.Of.WorkingDay).Distinct().Order().TakeLast(SiteLog.WholeDays).First();

    private static IEnumerable<string> Rows(SiteLog log) => Enumerable.Range(0, log.Made.Seconds.Count).Select(index => Row(log, index));

    private static string Header(SiteLog log) =>
        "Time,Record,Pile No,Barge,Casing,"
            + (log.Made.Gauges.TipMeasure == 1 ? "Casing tip level [m]," : "Casing tip below water [m],")
            + (log.Made.Gauges.SandMeasure == 1 ? "Sand above tip [m]," : "Sand level [m],")
            + "Air pressure [kPa],Hammer load," + (log.Of.Barge.HasInclination ? "Inclination X [deg],Inclination Y [deg]," : "") + "Charge [m3],Valve open,Water level [m]";

    public static byte[] Truth(IReadOnlyList<SiteLog> logs) => TextFile.Bytes(
    [
        "# Truth of the logs; for tests only. Levels: Sandlark Datum, metres; sand: loose, m3; seconds after the first sample.",
        "file,record,pile,recorded_pile,barge,casing,fault,first_sample,end_of_penetration_seconds,end_seconds,base,top,pull_out_stops,cycles,sand,charged,"
            + "hang_up_from,hang_up_length,hang_up_closed,least_metre_diameter,failed_from_seconds,failed_to_seconds",
        .. logs.Select(log => TruthRow(log, FirstWholeDay(logs))),
    ]);

    private static string Row(SiteLog log, int index)
    {
        var made = log.Made;
        return string.Join(',',
            Time(log.FirstSample.AddSeconds(made.Seconds[index])), log.Of.Record, log.Of.RecordedPile, log.Of.Barge.Name,
            log.Of.Casing.ToString(CultureInfo.InvariantCulture), TextFile.Number(made.Tip[index], 2), double.IsNaN(made.Sand[index]) ? "" : TextFile.Number(made.Sand[index], 2),
            TextFile.Number(made.Air[index], 0),
            log.Of.Barge.HasInclination
                ? string.Join(',', TextFile.Number(made.Hammer[index], 0), TextFile.Number(made.InclinationX[index], 2), TextFile.Number(made.InclinationY[index], 2))
                : TextFile.Number(made.Hammer[index], 0),
            made.Charge[index] == 0 ? "0" : TextFile.Number(made.Charge[index], 2),
            made.Valve[index] > 0 ? "1" : "0", TextFile.Number(made.Water[index], 2));
    }

    private static string TruthRow(SiteLog log, DateOnly firstWholeDay)
    {
        var (truth, course) = (log.Made.Truth, log.Made.Course);
        var hang = truth.HangUps.Count > 0 ? truth.HangUps[0] : null;
        var least = Math.Sqrt(4 / Math.PI * truth.LeastMetre(log.CutOff) * log.Made.Design.VolumeFactor);
        return string.Join(',',
            NameOf(log, firstWholeDay), log.Of.Record, log.Of.Truth.Pile, log.Of.RecordedPile, log.Of.Barge.Name, log.Of.Casing.ToString(CultureInfo.InvariantCulture), log.Fault?.Code,
            Time(log.FirstSample), TextFile.Number(course.EndOfPenetration, 0), TextFile.Number(course.EndOfBuilding, 0),
            TextFile.Number(truth.Bottoms.Min(), 3), TextFile.Number(log.Made.Design.Top, 3), TextFile.Number(truth.SandStopped, 3),
            truth.CycleSand.Count.ToString(CultureInfo.InvariantCulture), TextFile.Number(truth.Sand, 2), TextFile.Number(truth.Charged, 2),
            TextFile.Number(hang?.FromLevel, 3), TextFile.Number(hang?.Length, 3), hang is null ? "" : hang.Closed ? "yes" : "no",
            TextFile.Number(least, 3), TextFile.Number(log.Failed?.From, 0), TextFile.Number(log.Failed?.To, 0));
    }

    private static byte[] Packed(byte[] bytes)
    {
        using MemoryStream packed = new();
        using (GZipStream gzip = new(packed, CompressionLevel.SmallestSize)) gzip.Write(bytes);
        return packed.ToArray();
    }

    private static string Time(DateTime utc) => SiteTime.ToSite(utc).ToString("yyyy-MM-ddTHH:mm:ss.FFFzzz", CultureInfo.InvariantCulture);
}
