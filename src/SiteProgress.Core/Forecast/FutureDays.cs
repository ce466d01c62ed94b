using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;

namespace SiteProgress.Core.Forecast;

/// <summary>The days ahead: which are worked, by which barge, in which order of zones.</summary>
internal sealed class FutureDays
{
    /// <summary>How far ahead is looked; a run that is not done by then counts as not done.</summary>
    public static readonly int Most = 1_500;

    private readonly ForecastInput _input;
    private readonly LocalDate[] _days = new LocalDate[Most];

    public FutureDays(ForecastInput input)
    {
        _input = input;
        WorkingCalendar calendar = new(input.Plan);
        Worked = new bool[Most];
        Month = new int[Most];
        Present = new bool[input.Barges.Count][];
        LocalDate day = DayAt(0);
        for (int ahead = 0; ahead < Most; ahead++, day = day.PlusDays(1))
        {
            _days[ahead] = day;
            Worked[ahead] = calendar.IsWorked(day);
            Month[ahead] = day.Month;
        }

        WorkedAhead = [.. Enumerable.Range(0, Most).Where(ahead => Worked[ahead])];

        for (int barge = 0; barge < input.Barges.Count; barge++) Present[barge] = PresentDays(input.Barges[barge], calendar);
        ZoneOrder = input.Barges.Select(Order).ToArray();
        Closed = ClosedZones(calendar);
    }

    /// <summary>True where the site works, by days ahead.</summary>
    public bool[] Worked { get; }

    /// <summary>The days ahead on which the site works, in order.</summary>
    public int[] WorkedAhead { get; }

    /// <summary>Calendar month, by days ahead.</summary>
    public int[] Month { get; }

    /// <summary>True where a barge is on site and may work, by barge and days ahead.</summary>
    public bool[][] Present { get; }

    /// <summary>Zones in the order in which each barge builds them, as places in the input.</summary>
    public int[][] ZoneOrder { get; }

    /// <summary>Zones closed by a restricted window, by days ahead; null where none is.</summary>
    public bool[]?[] Closed { get; }

    /// <summary>The day so many days ahead, the first being 0.</summary>
    public LocalDate DayAt(int ahead) => _input.AsOf.PlusDays(1 + ahead);

    private bool[] PresentDays(BargeHistory barge, WorkingCalendar calendar)
    {
        BargePlan? plan = PlanOf(barge.Barge);
        bool[] present = new bool[Most];
        bool named = _input.Plan.Restricted.Any(window => window.Barge is not null);
        for (int ahead = 0; ahead < Most; ahead++)
        {
            LocalDate day = _days[ahead];
            // A barge that has worked here is here, whatever its plan once said about its coming.
            bool hasCome = barge.Days.Count > 0 || plan?.From is not { } from || from <= day;
            present[ahead] = Worked[ahead] && hasCome && (plan?.Until is not { } until || day <= until) && (!named || calendar.IsWorked(day, barge.Barge, null));
        }

        return present;
    }

    private int[] Order(BargeHistory barge)
    {
        IReadOnlyList<string> planned = PlanOf(barge.Barge)?.Zones ?? [];
        IEnumerable<string> first = planned.Count > 0 ? planned : barge.CurrentZone is { } current ? [current] : [];
        IEnumerable<string> rest = _input.Zones.OrderByDescending(zone => zone.SetUps).Select(zone => zone.Zone);
        return first.Concat(rest).Distinct(StringComparer.OrdinalIgnoreCase)
            .Select(zone => _input.Zones.ToList().FindIndex(one => string.Equals(one.Zone, zone, StringComparison.OrdinalIgnoreCase)))
            .Where(index => index >= 0).ToArray();
    }

    private bool[]?[] ClosedZones(WorkingCalendar calendar)
    {
        bool[]?[] closed = new bool[Most][];
        if (_input.Plan.Restricted.All(window => window.Zone is null)) return closed;
        for (int ahead = 0; ahead < Most; ahead++)
        {
            bool[] zones = _input.Zones.Select(zone => !calendar.IsWorked(_days[ahead], null, zone.Zone)).ToArray();
            if (zones.Contains(true)) closed[ahead] = zones;
        }

        return closed;
    }

    private BargePlan? PlanOf(string barge) => _input.Plan.Barges.FirstOrDefault(one => string.Equals(one.Barge, barge, StringComparison.OrdinalIgnoreCase));
}
