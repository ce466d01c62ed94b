using System.Globalization;
using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Progress;

/// <summary>A plan of work as it is typed.</summary>
public sealed class WorkPlanForm
{
    private static readonly LocalDateTimePattern Minute = LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd HH:mm");
    private static readonly (SlackUse Use, string Word)[] Uses = [(SlackUse.Anchors, "anchors"), (SlackUse.SetUps, "set-ups"), (SlackUse.Both, "both")];

    /// <summary>A zone's line.</summary>
    public sealed class ZoneLine
    {
        public required string Zone { get; init; }

        public DateOnly? Begins { get; set; }

        public DateOnly? Ends { get; set; }

        public decimal? PilesPerDay { get; set; }

        public decimal? Weight { get; set; }
    }

    /// <summary>A barge's line.</summary>
    public sealed class BargeLine
    {
        public required string Barge { get; init; }

        public DateOnly? From { get; set; }

        public DateOnly? Until { get; set; }

        public string? Zones { get; set; }
    }

    /// <summary>A day of the week.</summary>
    public sealed class RestLine
    {
        public required IsoDayOfWeek Day { get; init; }

        public bool IsRest { get; set; }
    }

    public required IReadOnlyList<ZoneLine> Zones { get; init; }

    public required IReadOnlyList<BargeLine> Barges { get; init; }

    public required IReadOnlyList<RestLine> Rest { get; init; }

    public string? Holidays { get; set; }

    public string? Restricted { get; set; }

    public DateOnly? ContractFinish { get; set; }

    public string? Windows { get; set; }

    /// <summary>Clocks of the site, by which windows are typed.</summary>
    public required DateTimeZone Clocks { get; init; }

    /// <summary>The form of a plan, with a line for every zone and barge of the site.</summary>
    public static WorkPlanForm Of(WorkPlan plan, SiteSettings settings)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(settings);
        DateTimeZone clocks = new SiteTime(settings.TimeZone).Zone;
        return new WorkPlanForm
        {
            Zones = [.. settings.Zones.Select(zone => plan.Zones.FirstOrDefault(one => Same(one.Zone, zone.Code)) is { } dated
                ? new ZoneLine { Zone = zone.Code, Begins = dated.Begins.ToDateOnly(), Ends = dated.Ends?.ToDateOnly(), PilesPerDay = dated.PilesPerDay, Weight = dated.Weight }
                : new ZoneLine { Zone = zone.Code })],
            Barges = [.. settings.Barges.Select(barge => plan.Barges.FirstOrDefault(one => Same(one.Barge, barge.Name)) is { } dated
                ? new BargeLine { Barge = barge.Name, From = dated.From?.ToDateOnly(), Until = dated.Until?.ToDateOnly(), Zones = string.Join(", ", dated.Zones) }
                : new BargeLine { Barge = barge.Name })],
            Rest = [.. Enumerable.Range(1, 7).Select(day => new RestLine { Day = (IsoDayOfWeek)day, IsRest = plan.RestWeekdays.Contains((IsoDayOfWeek)day) })],
            Holidays = string.Join(", ", plan.Holidays.Select(day => ShowDay.InAddress(day.ToDateOnly()))),
            Restricted = string.Join('\n', plan.Restricted.Select(one => string.Join(", ", ShowDay.InAddress(one.From.ToDateOnly()), ShowDay.InAddress(one.To.ToDateOnly()), one.Zone ?? "*", one.Barge ?? "*", one.Reason))),
            ContractFinish = plan.ContractFinish?.ToDateOnly(),
            Clocks = clocks,
            Windows = string.Join('\n', (plan.Windows ?? []).Select(one => string.Join(", ", Minute.Format(one.From.InZone(clocks).LocalDateTime), Minute.Format(one.To.InZone(clocks).LocalDateTime), Uses.First(use => use.Use == one.Use).Word, one.Barge ?? "*"))),
        };
    }

    /// <summary>True when two plans say the same.</summary>
    public static bool Same(WorkPlan one, WorkPlan other) => JsonSerializer.Serialize(one, RecordJson.Options) == JsonSerializer.Serialize(other, RecordJson.Options);

    /// <summary>What cannot be read, as a sentence; null when all can.</summary>
    public string? Problem()
    {
        foreach (string word in Words(Holidays))
        {
            if (ShowDay.FromAddress(word) is null) return $"\"{word}\" is not a day among the holidays; expected year-month-day, such as 2026-04-03.";
        }

        foreach (string line in Lines(Restricted))
        {
            string[] cells = line.Split(',', 5, StringSplitOptions.TrimEntries);
            if (cells.Length < 5 || ShowDay.FromAddress(cells[0]) is null || ShowDay.FromAddress(cells[1]) is null || cells[4].Length == 0)
                return $"The closed period \"{line}\" cannot be read; expected first day, last day, zone or *, barge or *, reason.";
        }

        foreach (string line in Lines(Windows))
        {
            if (SlackOf(line) is null) return $"The window \"{line}\" cannot be read; expected its beginning and its end in site time, what it is for (anchors, set-ups or both) and the barge or *, such as 2026-06-01 04:10, 2026-06-01 05:20, anchors, *.";
        }

        return Zones.FirstOrDefault(zone => zone.Begins is null && (zone.Ends is not null || zone.PilesPerDay is not null)) is { } open
            ? $"Zone {open.Zone} has no first day." : null;
    }

    /// <summary>The plan the form says.</summary>
    public WorkPlan ToPlan() => new(
        [.. Zones.Where(zone => zone.Begins is not null).Select(zone => new ZonePlan(zone.Zone, LocalDate.FromDateOnly(zone.Begins!.Value), Day(zone.Ends), zone.PilesPerDay, zone.Weight))],
        [.. Barges.Where(barge => barge.From is not null || barge.Until is not null || !string.IsNullOrWhiteSpace(barge.Zones)).Select(barge => new BargePlan(barge.Barge, Day(barge.From), Day(barge.Until), Words(barge.Zones)))],
        [.. Rest.Where(rest => rest.IsRest).Select(rest => rest.Day)],
        [.. Words(Holidays).Select(word => LocalDate.FromDateOnly(ShowDay.FromAddress(word)!.Value)).Distinct().Order()],
        [.. Lines(Restricted).Select(Window)],
        Day(ContractFinish),
        Lines(Windows) is { Length: > 0 } lines ? [.. lines.Select(line => SlackOf(line)!)] : null);

    private static RestrictedWindow Window(string line)
    {
        string[] cells = line.Split(',', 5, StringSplitOptions.TrimEntries);
        return new RestrictedWindow(
            LocalDate.FromDateOnly(ShowDay.FromAddress(cells[0])!.Value), LocalDate.FromDateOnly(ShowDay.FromAddress(cells[1])!.Value), Named(cells[2]), Named(cells[3]), cells[4]);
    }

    private static string? Named(string cell) => cell is "*" or "" ? null : cell;

    private SlackWindow? SlackOf(string line)
    {
        string[] cells = line.Split(',', StringSplitOptions.TrimEntries);
        return cells.Length == 4 && Minute.Parse(cells[0]) is { Success: true, Value: var from } && Minute.Parse(cells[1]) is { Success: true, Value: var to } && Uses.FirstOrDefault(use => use.Word == cells[2]) is { Word: not null } use
            ? new SlackWindow(Clocks.AtLeniently(from).ToInstant(), Clocks.AtLeniently(to).ToInstant(), use.Use, Named(cells[3])) : null;
    }

    private static string[] Lines(string? text) => (text ?? "").Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);

    private static string[] Words(string? text) => (text ?? "").Split([',', ' ', ';', '\n'], StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);

    private static LocalDate? Day(DateOnly? day) => day is { } date ? LocalDate.FromDateOnly(date) : null;

    private static bool Same(string one, string other) => string.Equals(one, other, StringComparison.OrdinalIgnoreCase);
}
