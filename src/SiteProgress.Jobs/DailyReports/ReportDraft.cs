using System.Globalization;
using System.Text.Json;
using Npgsql;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Sites;
using SiteProgress.Jobs.Today;
using static SiteProgress.Jobs.Sites.RowReading;

namespace SiteProgress.Jobs.DailyReports;

/// <summary>Works out what a daily report issued now would say.</summary>
internal sealed class ReportDraft(NpgsqlDataSource store, int site, SiteSettings settings, IReadOnlyList<SandDelivery> deliveries, DateOnly day)
{
    public async Task<DailyReportContent> MakeAsync(CancellationToken cancellation)
    {
        DayReport report = (await new DayReports(store, site).OfAsync([day], cancellation)).Single();
        List<ReportLine> lines = [.. Production(report)];
        lines.AddRange(await HoursAsync(cancellation));
        lines.AddRange(report.PilesWithFinding.Select(pile => new ReportLine(ReportSection.Findings, $"finding {pile.Number}",
            [pile.Number, pile.Barge, string.Join(", ", pile.Checks), pile.RadialMetres is { } radial ? Say($"{radial * 1000:0}") : "", Say($"{pile.LimitMetres * 1000:0}")])));
        lines.AddRange(report.NotCompleted.Select((attempt, index) => new ReportLine(ReportSection.NotCompleted, Say($"attempt {index + 1} at {attempt.Number}"),
            [attempt.Number, attempt.Barge, attempt.Outcome.ToString(), attempt.Remark ?? ""])));
        lines.AddRange(await SandAsync(cancellation));
        lines.AddRange(await TideAsync(cancellation));
        lines.AddRange(await ChecksAsync(cancellation));
        lines.AddRange(await NotesAsync(cancellation));
        lines.AddRange(await StandingAsync(cancellation));
        return new DailyReportContent(settings.Name, day, lines);
    }

    private static IEnumerable<ReportLine> Production(DayReport report)
    {
        foreach (BargeZoneProduction one in report.Production)
            yield return new ReportLine(ReportSection.Production, $"production {one.Barge} {(one.Zone.Length > 0 ? "zone " + one.Zone : "no zone")}", [one.Barge, one.Zone, .. Figures(one)]);
        if (report.Production.Count > 0) yield return new ReportLine(ReportSection.Production, "production all", ["All", "", .. Figures(report.Total)]);
    }

    private static string[] Figures(BargeZoneProduction one) =>
    [
        Say($"{one.Attempts}"), Say($"{one.Piles}"), Say($"{one.Metres:0.00}"), Say($"{one.SandInCasingCubicMetres:0.0}"), Say($"{one.SandInPileCubicMetres:0.0}"),
        Say($"{one.AttemptsNotCompleted}"), Say($"{one.PilesWithFinding}"),
    ];

    private async Task<IEnumerable<ReportLine>> HoursAsync(CancellationToken cancellation)
    {
        var entries = await store.ReadAsync(
            "select barge, place, activity, cause, borne_by, hours, remark from derived.diary_line where site = $1 and working_day = $2 order by barge, place",
            row => (Barge: row.GetString(0), Place: row.GetInt32(1), Cells: new[] { row.GetString(2), row.TextOrNull(3) ?? "", row.TextOrNull(4) ?? "" }, Hours: row.GetDouble(5), Remark: row.TextOrNull(6)),
            cancellation, Site(site), Day(day));
        return entries.GroupBy(entry => entry.Barge).SelectMany(barge => barge
            .Select(entry => new ReportLine(ReportSection.Hours, Say($"hours {entry.Barge} {entry.Place}"), [entry.Barge, .. entry.Cells, Say($"{entry.Hours:0.00}"), entry.Remark ?? ""]))
            .Append(new ReportLine(ReportSection.Hours, $"hours {barge.Key} all", [barge.Key, "all", "", "", Say($"{barge.Sum(entry => entry.Hours):0.00}"), ""])));
    }

    /// <summary>By source, loose volumes: what came, went into casings and was lost on the day and since the beginning, and what the account leaves.</summary>
    private async Task<IEnumerable<ReportLine>> SandAsync(CancellationToken cancellation)
    {
        List<(string Zone, DateOnly Day, double Used)> used = await store.ReadAsync(
            "select zone, working_day, sum(sand_in_casing) from derived.day_production where site = $1 and working_day <= $2 group by 1, 2",
            row => (row.GetString(0), row.GetFieldValue<DateOnly>(1), row.GetDouble(2)), cancellation, Site(site), Day(day));
        WorkingDays calendar = new(settings);
        (SandDelivery Entry, DateOnly Day)[] account = [.. deliveries.Select(one => (one, calendar.At(one.At).Day.ToDateOnly())).Where(one => one.Item2 <= day)];
        return settings.SandSources.Select(source =>
        {
            var ofSource = used.Where(one => settings.FindZone(one.Zone) is { } zone && zone.SandSource == source.Name).ToArray();
            double Sum(SandEntry entry, bool ofDay) => account.Where(one => one.Entry.Source == source.Name && one.Entry.Entry == entry && (!ofDay || one.Day == day)).Sum(one => one.Entry.CubicMetres);
            double usedOfDay = ofSource.Where(one => one.Day == day).Sum(one => one.Used), usedInAll = ofSource.Sum(one => one.Used);
            double delivered = Sum(SandEntry.Delivered, false), lost = Sum(SandEntry.Wasted, false);
            return new ReportLine(ReportSection.Sand, $"sand {source.Name}",
            [
                source.Name, Say($"{Sum(SandEntry.Delivered, true):0.0}"), Say($"{usedOfDay:0.0}"), Say($"{usedOfDay * source.VolumeChangeFactor:0.0}"), Say($"{Sum(SandEntry.Wasted, true):0.0}"),
                Say($"{delivered:0.0}"), Say($"{usedInAll:0.0}"), Say($"{lost:0.0}"), Say($"{delivered - usedInAll - lost:0.0}"),
            ]);
        });
    }

    private async Task<IEnumerable<ReportLine>> TideAsync(CancellationToken cancellation)
        => await store.ReadAsync(
            "select gauge, lowest, highest, readings from derived.water_day where site = $1 and day = $2 order by gauge",
            row => new ReportLine(ReportSection.Tide, $"tide {row.GetString(0)}", [row.GetString(0), Say($"{row.GetDouble(1):0.00}"), Say($"{row.GetDouble(2):0.00}"), Say($"{row.GetInt32(3)}")]),
            cancellation, Site(site), Day(day));

    private async Task<IEnumerable<ReportLine>> ChecksAsync(CancellationToken cancellation)
        => await store.ReadAsync(
            """
            select c.barge, c.casing, c.number, c.difference_east, c.difference_north, c.method, c.sequence from derived.position_check c
            where c.site = $1 and ((c.measured_at at time zone $3) - $4::interval)::date = $2 order by c.measured_at, c.sequence
            """,
            row => new ReportLine(ReportSection.SurveyChecks, Say($"check {row.GetString(0)} {row.GetInt32(1)} record {row.GetInt64(6)}"),
                [row.GetString(0), Say($"{row.GetInt32(1)}"), row.TextOrNull(2) ?? "", Say($"{row.GetDouble(3) * 1000:0}"), Say($"{row.GetDouble(4) * 1000:0}"), row.GetString(5)]),
            cancellation, Site(site), Day(day), Text(settings.TimeZone), Text(Say($"{settings.WorkingDayBegins.Hour} hours {settings.WorkingDayBegins.Minute} minutes")));

    private async Task<IEnumerable<ReportLine>> NotesAsync(CancellationToken cancellation)
    {
        DayNotes? notes = (await store.ReadAsync(
            "select notes::text from derived.day_notes where site = $1 and working_day = $2",
            row => JsonSerializer.Deserialize<DayNotes>(row.GetString(0), RecordJson.Options), cancellation, Site(site), Day(day))).SingleOrDefault();
        (string Name, string? Text)[] all =
        [
            ("weather and sea", notes?.WeatherAndSea), ("crew and plant", notes?.CrewAndPlant), ("instructions", notes?.Instructions),
            ("incidents", notes?.Incidents), ("plan for the next day", notes?.PlanForTomorrow),
        ];
        return all.Select(one => new ReportLine(ReportSection.Notes, one.Name, [one.Name, one.Text ?? ""]));
    }

    private async Task<IEnumerable<ReportLine>> StandingAsync(CancellationToken cancellation)
        => await store.ReadAsync(
            $"""
            select p.zone, count(*)::int, (count(*) filter (where p.working_day <= $2 and p.state not in ({(int)PileState.Outstanding}, {(int)PileState.BuildAgain})))::int
            from derived.pile p where p.site = $1 and p.state <> {(int)PileState.Cancelled} group by 1 order by 1
            """,
            row => new ReportLine(ReportSection.Standing, $"standing zone {row.GetString(0)}",
                [row.GetString(0), Say($"{row.GetInt32(1)}"), Say($"{row.GetInt32(2)}"), Say($"{row.GetInt32(1) - row.GetInt32(2)}"), Say($"{100.0 * row.GetInt32(2) / row.GetInt32(1):0.0}")]),
            cancellation, Site(site), Day(day));

    private static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
