using System.Text.Json;
using NodaTime;
using Npgsql;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Sites;
using static SiteProgress.Jobs.Sites.RowReading;

namespace SiteProgress.Jobs.Progress;

/// <summary>Reads one barge's hours of one working day, and the notes of that day.</summary>
public sealed class ReadDiaryDay(NpgsqlDataSource store)
{
    /// <summary>The day as kept.</summary>
    /// <param name="SequenceOfRecords">Sequence of the last record of the site.</param>
    /// <param name="TimeZone">IANA time zone of the site.</param>
    /// <param name="Day">Working day.</param>
    /// <param name="Barge">Barge.</param>
    /// <param name="Barges">Barges of the site.</param>
    /// <param name="LengthHours">Length of the working day, hours.</param>
    /// <param name="Entries">Hours in force.</param>
    /// <param name="Notes">Notes in force; null where there are none.</param>
    /// <param name="Version">Changes whenever hours or notes of this day do.</param>
    public sealed record Answer(
        long SequenceOfRecords,
        string TimeZone,
        DateOnly Day,
        string Barge,
        IReadOnlyList<string> Barges,
        decimal LengthHours,
        IReadOnlyList<DiaryEntry> Entries,
        DayNotes? Notes,
        (long Hours, long Notes) Version);

    /// <summary>Reads the day.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="day">Working day; null for the last one with records.</param>
    /// <param name="barge">Barge; null for the first.</param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <returns>The day; null where the site has no settings or no barge.</returns>
    [Needs(Right.See)]
    public async Task<Answer?> RunAsync(Permit permit, DateOnly? day, string? barge, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        if (await StoredSettings.ReadAsync(store, permit.Site, cancellation) is not { Barges.Count: > 0 } settings) return null;
        string known = (barge is null ? null : settings.FindBarge(barge)?.Name) ?? settings.Barges[0].Name;
        (long sequence, DateOnly? last) = (await store.ReadAsync(
            "select s.sequence, (select max(working_day) from derived.day_production where site = $1) from derived.site_state s where s.site = $1",
            row => (row.GetInt64(0), row.DayOrNull(1)),
            cancellation,
            Site(permit.Site))).Single();
        DateOnly shown = day ?? last ?? DateOnly.FromDateTime(DateTime.UnixEpoch);
        LocalDate date = LocalDate.FromDateOnly(shown);
        var lines = await store.ReadAsync(
            "select activity, cause, borne_by, hours, remark, sequence from derived.diary_line where site = $1 and working_day = $2 and barge = $3 order by place",
            row => (Entry: new DiaryEntry(date, known, row.GetString(0), row.TextOrNull(1), row.TextOrNull(2), Math.Round((decimal)row.GetDouble(3), 2), row.TextOrNull(4)), Sequence: row.GetInt64(5)),
            cancellation,
            Site(permit.Site),
            Day(shown),
            Text(known));
        var notes = await store.ReadAsync(
            "select notes::text, sequence from derived.day_notes where site = $1 and working_day = $2",
            row => (Notes: JsonSerializer.Deserialize<DayNotes>(row.GetString(0), RecordJson.Options), Sequence: row.GetInt64(1)),
            cancellation,
            Site(permit.Site),
            Day(shown));
        return new Answer(
            sequence, settings.TimeZone, shown, known, settings.Barges.Select(one => one.Name).ToArray(),
            HoursOfDay.LengthOf(date, new WorkingDays(settings)), lines.Select(line => line.Entry).ToArray(), notes.FirstOrDefault().Notes,
            (lines.Select(line => line.Sequence).DefaultIfEmpty(0).Max(), notes.FirstOrDefault().Sequence));
    }
}
