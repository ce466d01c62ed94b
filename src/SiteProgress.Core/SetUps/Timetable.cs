using NodaTime;

namespace SiteProgress.Core.SetUps;

/// <summary>
/// Gives layings and set-ups their times: each begins as soon as the one before is done, the barge may work there, the current allows it
/// and there is water enough until it is done. Where a plan would wait, the order changes if that ends it sooner.
/// </summary>
/// <remarks>
/// Up to <see cref="MostSetUps"/> set-ups of one laying, and <see cref="MostLayings"/> layings, are put in the best of all orders: ending
/// one sooner never makes the next end later, so the earliest end of every subset is enough to know (Held and Karp, 1962, from memory).
/// Of more, whichever may begin first is next, and the short way stays where that would not end sooner.
/// </remarks>
public sealed class Timetable
{
    /// <summary>Most set-ups of one laying of which every order is weighed.</summary>
    public static readonly int MostSetUps = 9;

    /// <summary>Most layings of one casing spacing of which every order is weighed.</summary>
    public static readonly int MostLayings = 5;

    private readonly BargePlanRequest _request;
    private readonly PlanConditions _conditions;
    private readonly Dictionary<string, string> _zones;
    private readonly Dictionary<PlannedSetUp, Terms> _terms = new(ReferenceEqualityComparer.Instance);
    private readonly OpenTimes _working;
    private readonly Duration _laying, _setUp, _change;

    private Timetable(BargePlanRequest request, PlanConditions conditions)
    {
        (_request, _conditions) = (request, conditions);
        _zones = new(request.Piles.Select(pile => KeyValuePair.Create(pile.Number, pile.Zone)));
        _working = OpenTimes.Of(conditions.Open.Values.SelectMany(open => open.Spans));
        _laying = Duration.FromMinutes(request.HoursPerAnchorHours * 60);
        _setUp = Duration.FromMinutes(request.MinutesPerSetUpMinutes);
        _change = Duration.FromHours(request.Spacings?.HoursPerChangeHours ?? 0);
    }

    /// <summary>What holds for a set-up whenever it is taken.</summary>
    private sealed record Terms(IReadOnlyList<OpenTimes> Working, SeabedBelow? Seabed, double? NeedsMetres);

    /// <summary>Dates a plan; numbers of layings and set-ups follow the order it takes.</summary>
    /// <param name="request">What was asked for; its conditions say when.</param>
    /// <param name="anchors">Layings in a short order; where their casing spacing changes a stretch begins, and stretches stay in order.</param>
    public static (IReadOnlyList<PlannedAnchor> Anchors, PlanTimetable Timetable) Of(BargePlanRequest request, IReadOnlyList<PlannedAnchor> anchors)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(anchors);
        PlanConditions conditions = request.Conditions ?? throw new ArgumentException("The request says no conditions.", nameof(request));
        Timetable table = new(request, conditions);
        List<PlannedAnchor> dated = [];
        Instant at = conditions.Begins;
        double? stands = CasingSpacing.Of(request.Barge);
        foreach (PlannedAnchor[] stretch in Stretches(anchors))
        {
            PlannedTime? changed = null;
            if (stretch[0].SpacingMetres is { } wanted && (stands is not { } now || !CasingSpacing.IsSame(now, wanted)))
            {
                changed = table.Next(table._change, at, table.OpenFor(stretch[0]), null, null);
                if (changed is null)
                {
                    dated.AddRange(stretch.Select(one => table.NeverLaid(one, "no working time is left for setting the casings to their spacing")));
                    continue;
                }

                (at, stands) = (changed.Ends, wanted);
            }

            (PlannedAnchor[] done, at) = table.Stretch(stretch, at);
            dated.AddRange(done.Select((one, place) => place == 0 ? one with { Changed = changed } : one));
        }

        return table.Numbered(dated);
    }

    private static IEnumerable<PlannedAnchor[]> Stretches(IReadOnlyList<PlannedAnchor> anchors)
    {
        for (int first = 0, next; first < anchors.Count; first = next)
        {
            next = first + 1;
            while (next < anchors.Count && anchors[next].SpacingMetres == anchors[first].SpacingMetres) next++;
            yield return [.. anchors.Skip(first).Take(next - first)];
        }
    }

    private (PlannedAnchor[] Anchors, Instant End) Stretch(PlannedAnchor[] anchors, Instant at)
    {
        int[] inOrder = [.. Enumerable.Range(0, anchors.Length)];
        (PlannedAnchor[] best, Instant end) = Through(inOrder);
        if (_request.DirectionDegrees is not null || best.Sum(Waits) == 0) return (best, end);
        int[]? order = anchors.Length <= MostLayings
            ? BestOrder(anchors.Length, at, (one, from) => Whole(anchors[one], from).End)
            : FirstCome(anchors.Length, at, (one, from) => Lay(anchors[one], from)?.Begins, (one, from) => Whole(anchors[one], from).End);
        if (order is null) return (best, end);
        (PlannedAnchor[] other, Instant sooner) = Through(order);
        // What gets no time ends nothing: fewer of them come first.
        return (Undated(other), sooner.ToUnixTimeTicks()).CompareTo((Undated(best), end.ToUnixTimeTicks())) < 0 ? (other, sooner) : (best, end);

        (PlannedAnchor[], Instant) Through(int[] order)
        {
            List<PlannedAnchor> done = [];
            Instant now = at;
            foreach (int one in order)
            {
                (PlannedAnchor dated, now) = Whole(anchors[one], now);
                done.Add(dated);
            }

            return ([.. done], now);
        }
    }

    private static int Undated(PlannedAnchor[] anchors) => anchors.Sum(anchor => anchor.SetUps.Count(one => one.Time is null));

    private static double Waits(PlannedAnchor anchor) => (anchor.Laid?.WaitHours ?? 0) + anchor.SetUps.Sum(one => one.Time?.WaitHours ?? (one.NotDated is null ? 0 : 1));

    /// <summary>A laying with its set-ups from a moment on, and when it is done.</summary>
    private (PlannedAnchor Anchor, Instant End) Whole(PlannedAnchor anchor, Instant at)
    {
        if (Lay(anchor, at) is not { } laid)
        {
            return (NeverLaid(anchor, $"no time for laying the anchors: {Why(_laying, at, OpenFor(anchor), _conditions.Anchors, null)}"), at);
        }

        PlannedSetUp[] setUps = [.. anchor.SetUps];
        (PlannedSetUp[] best, Instant end) = Through(setUps);
        if (Array.Exists(best, one => one.Time is not { WaitHours: 0 }))
        {
            int[]? order = setUps.Length <= MostSetUps
                ? BestOrder(setUps.Length, laid.Ends, (one, from) => Timed(setUps[one], from)?.Ends ?? from)
                : FirstCome(setUps.Length, laid.Ends, (one, from) => Timed(setUps[one], from)?.Begins, (one, from) => Timed(setUps[one], from)?.Ends ?? from);
            if (order is not null)
            {
                (PlannedSetUp[] other, Instant sooner) = Through([.. order.Select(one => setUps[one])]);
                int more = other.Count(one => one.Time is null) - best.Count(one => one.Time is null);
                if (more < 0 || (more == 0 && sooner < end)) (best, end) = (other, sooner);
            }
        }

        return (anchor with { Laid = laid, SetUps = best }, end);

        (PlannedSetUp[], Instant) Through(PlannedSetUp[] order)
        {
            Instant now = laid.Ends;
            PlannedSetUp[] done = new PlannedSetUp[order.Length];
            for (int place = 0; place < done.Length; place++)
            {
                PlannedTime? time = Timed(order[place], now);
                KeelRoom? room = Room(order[place], time);
                string? why = time is null ? Why(_setUp, now, Of(order[place]).Working, _conditions.SetUps, room) : null;
                done[place] = order[place] with { Time = time, Keel = room, NotDated = why };
                now = time?.Ends ?? now;
            }

            return (done, now);
        }
    }

    private PlannedAnchor NeverLaid(PlannedAnchor anchor, string why)
        => anchor with { Laid = null, SetUps = [.. anchor.SetUps.Select(one => one with { Time = null, Keel = Room(one, null), NotDated = why })] };

    private PlannedTime? Lay(PlannedAnchor anchor, Instant at) => Next(_laying, at, OpenFor(anchor), _conditions.Anchors, null);

    private PlannedTime? Timed(PlannedSetUp setUp, Instant at) => Next(_setUp, at, Of(setUp).Working, _conditions.SetUps, Of(setUp).NeedsMetres);

    private Terms Of(PlannedSetUp setUp)
    {
        if (_terms.TryGetValue(setUp, out Terms? known)) return known;
        string[] zones = Zones(setUp);
        SeabedBelow? seabed = _conditions.Keel?.Seabed(setUp.HeadingDegrees, setUp.Reference, zones);
        double? needs = _conditions.Keel is { IsTideKnown: true } keel && seabed is not null ? seabed.LevelMetres + keel.DraughtMetres + keel.RoomMetres : null;
        return _terms[setUp] = new Terms([.. zones.Select(OpenFor)], seabed, needs);
    }

    private KeelRoom? Room(PlannedSetUp setUp, PlannedTime? time)
    {
        if (_conditions.Keel is not { } keel) return null;
        if (Of(setUp).Seabed is not { } seabed) return new KeelRoom(null, "the seabed here is not known", null, null);
        double? lowest = time is null ? null : keel.LowestMetres(time.Begins, time.Ends);
        return new KeelRoom(seabed.LevelMetres, keel.IsTideKnown ? seabed.From : $"{seabed.From}; the tide is not known", seabed.LevelMetres + keel.DraughtMetres + keel.RoomMetres, lowest - seabed.LevelMetres - keel.DraughtMetres);
    }

    private string[] Zones(PlannedSetUp setUp) => [.. setUp.Builds.Select(one => _zones.GetValueOrDefault(one.Pile, "")).Distinct()];

    private OpenTimes[] OpenFor(PlannedAnchor anchor) => [.. anchor.SetUps.SelectMany(Zones).Distinct().Select(OpenFor)];

    private OpenTimes OpenFor(string zone) => _conditions.Open.GetValueOrDefault(zone) ?? OpenTimes.Of([]);

    /// <summary>The first time that fits, with what was waited for; null where none does.</summary>
    private PlannedTime? Next(Duration length, Instant at, IReadOnlyList<OpenTimes> working, OpenTimes? window, double? needs)
    {
        Duration inWindow = Duration.Min(length, _conditions.InWindow ?? length);
        OpenTimes? water = needs is { } level ? _conditions.Keel!.Enough(level) : null;
        if (Fitting(at, length, working) is not { } ready) return null;
        List<string> waited = [];
        if (_working.Within(at, ready) > Duration.Zero) Waited("working time");
        Instant begin = ready;
        for (bool moved = true; moved;)
        {
            moved = false;
            Instant? slack = window is null ? begin : window.Earliest(begin, inWindow);
            if (slack > begin) Waited("slack water");
            Instant? deep = slack is { } still ? water is null ? still : water.Earliest(still, length) : null;
            if (deep > slack) Waited("the tide");
            Instant? open = deep is { } high ? Fitting(high, length, working) : null;
            if (open is not { } found) return null;
            if (found > deep) Waited("working time");
            moved = found > begin;
            begin = found;
        }

        // Waiting is time in which the barge could work somewhere: rest days of the whole site are none.
        Duration wait = _working.Within(at, begin);
        return new PlannedTime(begin, begin + length, wait.TotalHours, waited.Count == 0 ? null : string.Join(" and ", waited));

        void Waited(string what)
        {
            if (!waited.Contains(what)) waited.Add(what);
        }
    }

    private static Instant? Fitting(Instant at, Duration length, IReadOnlyList<OpenTimes> working)
    {
        Instant begin = at;
        for (bool moved = true; moved;)
        {
            moved = false;
            foreach (OpenTimes open in working)
            {
                if (open.Earliest(begin, length) is not { } found) return null;
                moved |= found > begin;
                begin = found;
            }
        }

        return begin;
    }

    private string Why(Duration length, Instant at, IReadOnlyList<OpenTimes> working, OpenTimes? window, KeelRoom? room)
    {
        if (Fitting(at, length, working) is null) return "no working time is left that is long enough";
        if (window is not null && window.Earliest(at, Duration.Min(length, _conditions.InWindow ?? length)) is null) return "no window of slack water is known that is long enough";
        if (room?.NeedsLevelMetres is { } needs && _conditions.Keel!.Enough(needs).Earliest(_conditions.Begins, length) is null)
            return FormattableString.Invariant($"not water enough at any tide looked at: it needs a water level of {needs:0.00} m for so long, and the highest taken is {_conditions.Keel.HighestMetres:0.00} m");
        return "working time, slack water and tide never come together for so long";
    }

    private (IReadOnlyList<PlannedAnchor>, PlanTimetable) Numbered(List<PlannedAnchor> dated)
    {
        int number = 0;
        PlannedAnchor[] anchors = [.. dated.Select((anchor, place) => anchor with { Number = place + 1, SetUps = [.. anchor.SetUps.Select(one => one with { Number = ++number })] })];
        PlannedSetUp[] setUps = [.. anchors.SelectMany(anchor => anchor.SetUps)];
        double waits = anchors.Sum(anchor => (anchor.Changed?.WaitHours ?? 0) + (anchor.Laid?.WaitHours ?? 0)) + setUps.Sum(one => one.Time?.WaitHours ?? 0);
        return (anchors, new PlanTimetable(
            _conditions.Begins, setUps.Any(one => one.Time is not null) ? setUps.Max(one => one.Time?.Ends ?? Instant.MinValue) : null, waits, dated.Count(one => one.Changed is not null) * _change.TotalHours,
            setUps.Count(one => one.Time is null), setUps.Count(one => one.Keel is { LeastRoomMetres: null } && one.Time is not null)));
    }

    /// <summary>The order that ends soonest, by the earliest end of every subset; of equal ones that with the earlier things of the list first.</summary>
    internal static int[]? BestOrder(int count, Instant at, Func<int, Instant, Instant> end)
    {
        int whole = 1 << count;
        Instant[] ends = new Instant[whole];
        int[] last = new int[whole];
        ends[0] = at;
        for (int set = 1; set < whole; set++)
        {
            ends[set] = Instant.MaxValue;
            // The last of the list is tried as the last first, so that equal ends keep the order of the list.
            for (int one = count - 1; one >= 0; one--)
            {
                if ((set & (1 << one)) == 0) continue;
                Instant then = end(one, ends[set & ~(1 << one)]);
                if (then < ends[set]) (ends[set], last[set]) = (then, one);
            }
        }

        int[] order = new int[count];
        for (int set = whole - 1, place = count - 1; place >= 0; set &= ~(1 << last[set]), place--) order[place] = last[set];
        return order;
    }

    /// <summary>Always that next which may begin first; of equal ones the earlier in the list. What never may begin comes last.</summary>
    private static int[] FirstCome(int count, Instant at, Func<int, Instant, Instant?> begin, Func<int, Instant, Instant> end)
    {
        List<int> left = [.. Enumerable.Range(0, count)];
        int[] order = new int[count];
        for (int place = 0; place < count; place++)
        {
            Instant now = at;
            int next = left.MinBy(one => begin(one, now) ?? Instant.MaxValue);
            left.Remove(next);
            order[place] = next;
            at = end(next, at);
        }

        return order;
    }
}
