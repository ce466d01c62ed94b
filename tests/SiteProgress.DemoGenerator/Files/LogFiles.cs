using System.Globalization;
using System.IO.Compression;
using SiteProgress.DemoGenerator.Logs;
using SiteProgress.DemoGenerator.Work;

namespace SiteProgress.DemoGenerator.Files;

/// <summary>The logs of single piles, a packed text table each, and what is true of them.</summary>
public static class LogFiles
{
    public const string Folder = "logs/";

    public static string NameOf(SiteLog log) => Folder + log.Of.RecordedPile + ".csv.gz";

    public static byte[] Write(SiteLog log) => Packed(TextFile.Bytes(
    [
        "Time,Record,Pile No,Barge,Casing,Casing tip level [m],Sand above tip [m],Air pressure [kPa],Hammer load,"
            + "Inclination X [deg],Inclination Y [deg],Charge [m3],Valve open,Water level [m]",
        .. Enumerable.Range(0, log.Made.Seconds.Count).Select(index => Row(log, index)),
    ]));

    public static byte[] Truth(IReadOnlyList<SiteLog> logs) => TextFile.Bytes(
    [
        "# Truth of the logs; for tests only. Levels: Sandlark Datum, metres; sand: loose, m3; seconds after the first sample.",
        "file,record,pile,barge,casing,fault,first_sample,end_of_penetration_seconds,end_seconds,base,top,pull_out_stops,cycles,sand,charged,"
            + "hang_up_from,hang_up_length,hang_up_closed,least_metre_diameter,failed_from_seconds,failed_to_seconds",
        .. logs.Select(TruthRow),
    ]);

    private static string Row(SiteLog log, int index)
    {
        var made = log.Made;
        return string.Join(',',
            Time(log.FirstSample.AddSeconds(made.Seconds[index])), log.Of.Record, log.Of.RecordedPile, log.Of.Barge.Name,
            log.Of.Casing.ToString(CultureInfo.InvariantCulture), TextFile.Number(made.Tip[index], 2), TextFile.Number(made.Sand[index], 2),
            TextFile.Number(made.Air[index], 0), TextFile.Number(made.Hammer[index], 0), TextFile.Number(made.InclinationX[index], 2),
            TextFile.Number(made.InclinationY[index], 2), made.Charge[index] == 0 ? "0" : TextFile.Number(made.Charge[index], 2),
            made.Valve[index] > 0 ? "1" : "0", TextFile.Number(made.Water[index], 2));
    }

    private static string TruthRow(SiteLog log)
    {
        var (truth, course) = (log.Made.Truth, log.Made.Course);
        var hang = truth.HangUps.Count > 0 ? truth.HangUps[0] : null;
        var least = Math.Sqrt(4 / Math.PI * truth.LeastMetre(log.Made.Design.DesignTop) * log.Made.Design.VolumeFactor);
        return string.Join(',',
            NameOf(log), log.Of.Record, log.Of.Truth.Pile, log.Of.Barge.Name, log.Of.Casing.ToString(CultureInfo.InvariantCulture), log.Fault?.Code,
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

    private static string Time(DateTime utc) => SiteTime.ToSite(utc).ToString("yyyy-MM-ddTHH:mm:sszzz", CultureInfo.InvariantCulture);
}
