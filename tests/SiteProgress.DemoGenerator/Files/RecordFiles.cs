using System.Globalization;
using System.Text;
using System.Text.Json;
using SiteProgress.DemoGenerator.Records;
using SiteProgress.DemoGenerator.Work;

namespace SiteProgress.DemoGenerator.Files;

/// <summary>Check measurements, diary, tide, and the two files of truth.</summary>
public static class RecordFiles
{
    public static byte[] Checks(IReadOnlyList<CheckMeasurement> checks) => TextFile.Bytes(
    [
        "Time,Barge,Casing,Pile No,X recorded [m],Y recorded [m],X measured [m],Y measured [m],Method,Uncertainty [m]",
        .. checks.Select(check => string.Join(',',
            Time(check.Time), check.Barge, check.Casing.ToString(CultureInfo.InvariantCulture), check.Pile,
            F(check.Recorded.First), F(check.Recorded.Second), F(check.Measured.First), F(check.Measured.Second),
            check.Method, TextFile.Number(check.Uncertainty, 2))),
    ]);

    public static byte[] SandDeliveries(IReadOnlyList<SandLine> lines) => TextFile.Bytes(
    [
        "Time,Entry,Ticket,Sand source,Barge,Volume [m3],Remark",
        .. lines.Where(line => line.Recorded).Select(line => string.Join(',',
            Time(line.Time), line.Entry, line.Ticket, line.Source, line.Barge, TextFile.Number(line.Volume, 1), line.Remark)),
    ]);

    public static byte[] SandTruth(IReadOnlyList<SandLine> lines) => TextFile.Bytes(
    [
        "# Loads that came and are missing from sand-deliveries.csv; for tests only. Loose, m3.",
        "time,ticket,source,barge,volume",
        .. lines.Where(line => !line.Recorded).Select(line => string.Join(',',
            Time(line.Time), line.Ticket, line.Source, line.Barge, TextFile.Number(line.Volume, 1))),
    ]);

    public static byte[] Diary(IReadOnlyList<DiaryLine> lines) => TextFile.Bytes(
    [
        "Working day,Barge,Activity,Cause,Borne by,Hours",
        .. lines.Select(line => string.Join(',',
            SiteTime.Iso(line.Day), line.Barge, line.Activity, TextFile.Quoted(line.Cause), line.BorneBy, TextFile.Number(line.Minutes / 60.0, 2))),
    ]);

    /// <summary>Water level every ten minutes, as a gauge would send it.</summary>
    public static byte[] Tide()
    {
        var lines = new List<string> { "Time,Water level [m]" };
        for (var moment = SiteTime.FirstMorning; moment <= SiteTime.LastMorning; moment = moment.AddMinutes(10))
            lines.Add(Time(moment) + "," + TextFile.Number(Sea.WaterLevel(moment), 2));
        return TextFile.Bytes(lines);
    }

    public static byte[] Truth(DemoSite site, IReadOnlyList<AsBuiltFile> files)
    {
        var fileOf = files.SelectMany(file => file.Rows.Select(row => (row.Record, file.Name)))
            .GroupBy(row => row.Record).ToDictionary(group => group.Key, group => group.First().Name);
        return TextFile.Bytes(
        [
            "# Truth of the demo; for tests only. Positions: site grid, metres; levels: Sandlark Datum, metres; sand: loose in the casing, m3.",
            "record,file,barge,casing,set_up,working_day,steers_by,outcome,attempt,true_pile,recorded_pile,"
                + "true_x_touch_down,true_y_touch_down,recorded_x_touch_down,recorded_y_touch_down,true_x_end,true_y_end,recorded_x_end,recorded_y_end,"
                + "true_top,recorded_top,true_tip,recorded_tip,true_sand,recorded_sand,fix,fault",
            .. site.Installations.Select(each => string.Join(',',
                each.Record, fileOf[each.Record], each.Barge.Name, each.Casing.ToString(CultureInfo.InvariantCulture), each.SetUpName,
                SiteTime.Iso(each.WorkingDay), each.Barge.Steers, each.Outcome, each.Attempt.ToString(CultureInfo.InvariantCulture),
                each.Truth.Pile, each.RecordedPile,
                F(each.Truth.TouchDown.First), F(each.Truth.TouchDown.Second), F(each.RecordedTouchDown.First), F(each.RecordedTouchDown.Second),
                F(each.Truth.End.First), F(each.Truth.End.Second), F(each.RecordedEnd.First), F(each.RecordedEnd.Second),
                TextFile.Number(each.Truth.Top, 2), TextFile.Number(each.RecordedTop, 2),
                TextFile.Number(each.Truth.Tip, 2), TextFile.Number(each.RecordedTip, 2),
                TextFile.Number(each.Truth.Sand, 1), TextFile.Number(each.RecordedSand, 1), each.Fix, string.Join(' ', each.Faults))),
        ]);
    }

    public static byte[] Faults(DemoSite site) =>
        Encoding.UTF8.GetBytes(JsonSerializer.Serialize(new { site.Seed, Faults = site.Planting.Faults }, SiteFiles.Json) + "\n");

    private static string Time(DateTime utc) => SiteTime.ToSite(utc).ToString("yyyy-MM-ddTHH:mmzzz", CultureInfo.InvariantCulture);

    private static string F(double metres) => TextFile.Number(metres, 3);
}
