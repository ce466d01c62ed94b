using NodaTime;
using Npgsql;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Ground;
using SiteProgress.Core.Levels;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;
using SiteProgress.Core.Records;
using SiteProgress.Core.SetUps;
using SiteProgress.Jobs.Progress;
using SiteProgress.Jobs.Sites;
using static SiteProgress.Jobs.Sites.RowReading;

namespace SiteProgress.Jobs.Planning;

/// <summary>What the dates of a plan rest on.</summary>
/// <param name="Tide">Where the tide comes from, or why it is not known, as a sentence; null where nothing asks for it.</param>
/// <param name="Slack">Where windows of slack water come from; null where nothing needs them.</param>
/// <param name="Surveys">Seabed surveys of the site.</param>
/// <param name="Weather">What laying the anchors asks of the weather; null where no wave height was said.</param>
/// <param name="WorkableRatio">Share of the time that can be worked; null where neither was said nor a diary tells it.</param>
/// <param name="WorkableByDiary">True where the diary tells it.</param>
public sealed record PlanGround(
    string? Tide, string? Slack, int Surveys, WeatherWindow? Weather, double? WorkableRatio, bool WorkableByDiary);

/// <summary>Works out when a barge may work, from calendar, tide, windows and seabed.</summary>
internal sealed class PlanGroundWork(NpgsqlDataSource store, int site, SiteSettings settings, SiteHistory history, Barge barge, IReadOnlyList<AttemptRow> attempts)
{
    private const int DaysAhead = 500;

    // How far a tide is told beyond its readings: as long as they span, but no longer than this, as nodal corrections are left out.
    private static readonly Duration FarthestTide = Duration.FromDays(180);

    public async Task<(PlanConditions Conditions, PlanGround Ground)> OfAsync(PlanBarge.Request asked, IReadOnlyList<OpenPile> piles, CancellationToken cancellation)
    {
        PlanTimes times = asked.Times!;
        WorkingDays days = new(settings);
        WorkPlan plan = await StoredPlan.PlanAsync(store, site, cancellation);
        LocalDate first = times.Begins ?? (attempts.Count > 0 ? attempts.Max(one => one.Day).PlusDays(1) : plan.Zones.Count > 0 ? plan.Zones.Min(zone => zone.Begins) : settings.SandSources.Select(one => one.ApprovedOn).DefaultIfEmpty(new LocalDate(2000, 1, 3)).Max());
        Instant begins = days.BeginOf(first);
        Dictionary<string, OpenTimes> open = piles.Select(pile => pile.Zone).Distinct().ToDictionary(zone => zone, zone => SiteTimes.Working(plan, days, barge.Name, zone, begins, DaysAhead, times.HoursPerDay));
        TidePrediction? tide = null;
        string? tideSaid = null;
        if (times.SlackMinutes is not null || times.DraughtMetres is not null) (tide, tideSaid) = Tide(begins);
        Instant end = tide is null ? begins : TideEnds(tide);
        (OpenTimes? anchors, string? said) = Slack(SlackUse.Anchors);
        (OpenTimes? setUps, string? saidToo) = Slack(SlackUse.SetUps);
        KeelWater? keel = times.DraughtMetres is { } draught ? new KeelWater(draught, times.KeelMetres, tide, begins, end, await SeabedAsync(times, cancellation)) : null;
        (double? workable, bool byDiary) = times.WorkableRatio is { } ratio ? (ratio, false) : (await WorkableAsync(cancellation), true);
        PlanGround ground = new(
            tideSaid, said ?? saidToo, keel is null ? 0 : history.Soundings.Select(row => (row.Value.Survey, row.Value.SurveyedOn)).Distinct().Count(),
            times.SeaMetres is { } sea && asked.AnchorHours > 0 ? WeatherWindow.Of(asked.AnchorHours, sea, times.UnforeseenHours) : null, workable, byDiary);
        return (new PlanConditions(begins, open, anchors, setUps, times.InWindowMinutes is { } minutes ? Duration.FromMinutes(minutes) : null, keel), ground);

        (OpenTimes?, string?) Slack(SlackUse use)
        {
            if (SiteTimes.Entered(plan, barge.Name, use) is { } entered) return (entered, "windows of slack water entered in the plan of work");
            if (times.SlackMinutes is not { } half || (times.SlackUse != use && times.SlackUse != SlackUse.Both)) return (null, null);
            if (tide is not null) return (SiteTimes.Slack(tide, begins, end, Duration.FromMinutes(half), Duration.FromMinutes(times.SlackLagMinutes)), "high and low water of the tide told from the readings");
            // Without a tide no window is known, and none is taken for granted.
            return (OpenTimes.Of([]), "no tide is known, so no window of slack water is");
        }
    }

    private (TidePrediction? Tide, string Said) Tide(Instant begins)
    {
        if (SiteWater.Of(history) is not { } water) return (null, "No water levels were brought in, so the tide is not known.");
        if (TidePrediction.Of(water.Levels) is not { } tide)
            return (null, FormattableString.Invariant($"The readings of gauge {water.Gauge} span less than the {TidePrediction.ShortestRecord.TotalDays:0.0} days that tell the greatest constituents apart, so the tide is not known."));
        if (TideEnds(tide) <= begins) return (null, FormattableString.Invariant($"The readings of gauge {water.Gauge} end on {tide.To.InUtc().Date:uuuu-MM-dd}, too long before the plan begins to tell the tide."));
        return (tide, FormattableString.Invariant($"The tide is told from the readings of gauge {water.Gauge} from {tide.From.InUtc().Date:uuuu-MM-dd} to {tide.To.InUtc().Date:uuuu-MM-dd} ({string.Join(", ", tide.Told)}), until {TideEnds(tide).InUtc().Date:uuuu-MM-dd}; readings lie {tide.SpreadMetres:0.00} m from it (standard deviation), and twice that is taken off for weather."));
    }

    private static Instant TideEnds(TidePrediction tide) => tide.To + Duration.Min(FarthestTide, tide.To - tide.From);

    private async Task<Func<double, Core.Coordinates.SiteCoordinate, IReadOnlyCollection<string>, SeabedBelow?>> SeabedAsync(PlanTimes times, CancellationToken cancellation)
    {
        IReadOnlyList<SeabedSurvey> surveys = history.Adjustments.Count == 0 ? [] : SeabedSurveys.Of(history, new SiteFrames(history.Adjustments));
        Dictionary<string, int> planned = (await store.ReadAsync(
            "select zone, count(*)::int from derived.pile where site = $1 group by zone", row => (Zone: row.GetString(0), Piles: row.GetInt32(1)), cancellation, Site(site))).ToDictionary(one => one.Zone, one => one.Piles);
        Dictionary<string, double> stated = new(times.Seabeds ?? new Dictionary<string, double>(), StringComparer.OrdinalIgnoreCase);
        return new SeabedBelowBarge(barge, surveys, stated, Heave).At;

        // What a survey has not seen yet comes up later: the share of the zone's piles built since, or still to be built.
        double? Heave(string code, LocalDate surveyed)
        {
            if (settings.FindZone(code) is not { } zone || planned.GetValueOrDefault(code) is not (> 0 and var all)) return null;
            double length = zone.TipLevelMetres is { } tip ? zone.TopLevelMetres - tip : zone.LeastLengthMetres ?? 0;
            if (length <= 0) return null;
            int seen = attempts.Where(one => one.Zone == code && !one.IsAgain && one.Day < surveyed).Count();
            double mean = ExpectedHeave.UpheavalRatio(zone.ReplacementRatio, length) * zone.ReplacementRatio * length;
            return mean * Math.Clamp(1 - ((double)seen / all), 0, 1);
        }
    }

    /// <summary>Share of the barge's written hours, rest days apart, that were not weather; null where the diary tells of none.</summary>
    private async Task<double?> WorkableAsync(CancellationToken cancellation)
    {
        List<DiaryEntry> entries = await store.ReadAsync(
            "select working_day, barge, activity, cause, hours from derived.diary_line where site = $1 and barge = $2",
            row => new DiaryEntry(LocalDate.FromDateOnly(row.GetFieldValue<DateOnly>(0)), row.GetString(1), row.GetString(2), row.TextOrNull(3), null, (decimal)row.GetDouble(4), null),
            cancellation, Site(site), Text(barge.Name));
        decimal hours = entries.Where(one => HoursOfDay.KindOf(one) is not (TimeKind.Rest or TimeKind.Mobilisation)).Sum(one => one.Hours);
        decimal weather = entries.Where(one => HoursOfDay.KindOf(one) == TimeKind.Weather).Sum(one => one.Hours);
        return hours > 0 && weather < hours ? (double)((hours - weather) / hours) : null;
    }
}
