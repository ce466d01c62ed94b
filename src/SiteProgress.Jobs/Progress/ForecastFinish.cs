using NodaTime;
using Npgsql;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Forecast;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;
using SiteProgress.Core.SetUps;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Sites;
using static SiteProgress.Jobs.Sites.RowReading;

namespace SiteProgress.Jobs.Progress;

/// <summary>Forecasts when the work is done, from the records of the working days that are over.</summary>
public sealed class ForecastFinish(NpgsqlDataSource store, TimeProvider time)
{
    private static readonly ForecastOptions Middle = new(Runs: 2_000);
    private const double FitMetres = 0.05;

    /// <summary>How much is asked.</summary>
    public enum Depth
    {
        /// <summary>The dates alone.</summary>
        Dates = 1,

        /// <summary>Which assumption moves them, and what the forecast would have said each past week.</summary>
        Whole,
    }

    /// <summary>Makes the forecast.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="by">Day whose chance is asked for; null for the contract's.</param>
    /// <param name="depth">How much is asked.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <returns>The forecast; null before the site has settings or a working day.</returns>
    [Needs(Right.See)]
    public async Task<ForecastView?> RunAsync(Permit permit, DateOnly? by, Depth depth, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        if (await StoredSettings.ReadAsync(store, permit.Site, cancellation) is not { } settings) return null;
        WorkPlan plan = await StoredPlan.PlanAsync(store, permit.Site, cancellation);
        IReadOnlyList<AttemptRow> attempts = await AttemptRow.ReadAsync(store, permit.Site, cancellation);
        LocalDate current = new WorkingDays(settings).At(Instant.FromDateTimeOffset(time.GetUtcNow())).Day;
        LocalDate? target = by is { } day ? LocalDate.FromDateOnly(day) : plan.ContractFinish;
        List<LeftPile> left = await LeftAsync(permit.Site, cancellation);
        if (Input(attempts, left, plan, settings, current, target) is not { } input) return null;
        ForecastOptions options = new();
        return FinishForecast.Of(input, options) is { } forecast
            ? new ForecastView(
                forecast,
                target?.ToDateOnly(),
                options,
                input.Rework,
                depth == Depth.Whole ? Assumptions.Of(input, Middle) : [],
                depth == Depth.Whole ? BackTest.Of(input, Middle) : [])
            : null;
    }

    internal static ForecastInput? Input(
        IReadOnlyList<AttemptRow> attempts, IReadOnlyList<LeftPile> left, WorkPlan plan, SiteSettings settings, LocalDate current, LocalDate? target)
    {
        // The day in progress is not over; drawn from, it would pull every forecast down each morning.
        AttemptRow[] over = attempts.Where(one => one.Day < current && one.Recorded.SetUp is not null).ToArray();
        if (over.Length == 0) return null;
        LocalDate asOf = over.Max(one => one.Day);
        WorkingCalendar calendar = new(plan);
        var setUps = over.GroupBy(one => (one.Recorded.Barge, one.Recorded.SetUp)).Select(group => new
        {
            group.Key.Barge,
            Day = group.Max(one => one.Day),
            Again = group.All(one => one.IsAgain),
            Zone = group.Last().Zone,
        }).ToArray();
        List<BargeHistory> barges = [];
        foreach (string barge in settings.Barges.Select(one => one.Name).Union(setUps.Select(one => one.Barge)))
        {
            var ofBarge = setUps.Where(one => one.Barge == barge).ToArray();
            bool isComing = plan.Barges.Any(one => string.Equals(one.Barge, barge, StringComparison.OrdinalIgnoreCase) && one.From > asOf);
            if (ofBarge.Length == 0 && !isComing) continue;
            barges.Add(new BargeHistory(barge, Days(ofBarge.ToLookup(one => one.Day, one => barge), asOf, calendar), ofBarge.MaxBy(one => one.Day)?.Zone));
        }

        ZoneLeft[] zones = settings.Zones.Select(zone =>
        {
            LeftPile[] ofZone = left.Where(pile => pile.Zone == zone.Code).ToArray();
            return new ZoneLeft(zone.Code, SetUpsLeft(zone.Code, ofZone, plan, settings), ofZone.Length);
        }).ToArray();
        return new ForecastInput(asOf, barges, zones, plan, new ReworkHistory(setUps.Length, setUps.Count(one => one.Again)), target);
    }

    private static DayOutput[] Days(ILookup<LocalDate, string> setUps, LocalDate asOf, WorkingCalendar calendar)
    {
        if (setUps.Count == 0) return [];
        LocalDate first = setUps.Min(day => day.Key);
        return Enumerable.Range(0, Period.DaysBetween(first, asOf) + 1).Select(step => first.PlusDays(step))
            // A rest day on which something was built all the same was a day of work.
            .Where(day => calendar.IsWorked(day) || setUps.Contains(day))
            .Select(day => new DayOutput(day, setUps[day].Count())).ToArray();
    }

    /// <summary>Set-ups the piles left in a zone take: counted for the barge that is planned to build it, else for the one that needs fewest.</summary>
    private static int SetUpsLeft(string zone, LeftPile[] piles, WorkPlan plan, SiteSettings settings)
    {
        if (piles.Length == 0) return 0;
        Barge[] planned = plan.Barges.Where(one => one.Zones.Count > 0 && string.Equals(one.Zones[0], zone, StringComparison.OrdinalIgnoreCase))
            .Select(one => settings.FindBarge(one.Barge)).OfType<Barge>().Where(one => one.Casings.Count > 0).ToArray();
        Barge[] asked = planned.Length > 0 ? planned : settings.Barges.Where(one => one.Casings.Count > 0).ToArray();
        OpenPile[] open = piles.Select(pile => new OpenPile(pile.Number, new SiteCoordinate(pile.X, pile.Y))).ToArray();
        return asked.Length == 0 ? piles.Length : asked.Min(barge =>
        {
            SetUpProblem problem = new(open, barge.Casings, [0, 90], FitMetres);
            return QuickCover.Of(problem, SetUpCandidates.Of(problem)).Count;
        });
    }

    private Task<List<LeftPile>> LeftAsync(int site, CancellationToken cancellation)
        => store.ReadAsync(
            $"select number, zone, design_x, design_y from derived.pile where site = $1 and state in ({(int)PileState.Outstanding}, {(int)PileState.BuildAgain}) order by number collate \"C\"",
            row => new LeftPile(row.GetString(0), row.GetString(1), row.GetDouble(2), row.GetDouble(3)),
            cancellation,
            Site(site));
}

/// <summary>A pile that is left.</summary>
internal sealed record LeftPile(string Number, string Zone, double X, double Y, int? HeldBy = null);

/// <summary>A forecast with what it rests on.</summary>
/// <param name="Forecast">The forecast.</param>
/// <param name="Target">Day whose chance was asked for.</param>
/// <param name="Options">How it was made.</param>
/// <param name="Rework">How often work had to be done again.</param>
/// <param name="Assumptions">How far each assumption moves the middle; empty where not asked for.</param>
/// <param name="Past">What it would have said each past week; empty where not asked for.</param>
public sealed record ForecastView(
    FinishForecast Forecast,
    DateOnly? Target,
    ForecastOptions Options,
    ReworkHistory Rework,
    IReadOnlyList<AssumptionShift> Assumptions,
    IReadOnlyList<BackTestWeek> Past);
