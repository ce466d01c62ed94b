using SiteProgress.DemoGenerator.Records;
using SiteProgress.DemoGenerator.Site;

namespace SiteProgress.DemoGenerator.Work;

/// <summary>
/// One barge from its arrival to the last morning: moves, anchors, sand, survey, weather, break-downs and piles, in steps of
/// three minutes. Every minute goes into the diary once.
/// </summary>
public sealed class BargeSimulation
{
    private const int FullHopper = 900;
    private readonly Barge _barge;
    private readonly Sea _sea;
    private readonly InstallationProcess _process;
    private readonly ChanceSource _chance;
    private readonly DateTime _arrived;
    private DateTime _now;
    private double _sand = FullHopper;
    private DateOnly _surveyed;
    private int _setUps;

    public BargeSimulation(Barge barge, Sea sea, InstallationProcess process, int seed)
    {
        (_barge, _sea, _process) = (barge, sea, process);
        _chance = ChanceSource.For(seed, "work of " + barge.Name);
        _now = _arrived = SiteTime.BeginOf(barge.Arrives);
        Diary = new Diary(barge.Name);
    }

    public Diary Diary { get; }

    public List<Installation> Installations { get; } = [];

    public void Run(IEnumerable<AnchorField> fields)
    {
        Spend(_chance.Whole(120, 180) * 3, "mobilisation", "arrival and check of positions", "contractor");
        var zones = new HashSet<string>();
        foreach (var field in fields)
        {
            if (_now >= SiteTime.LastMorning) return;
            Spend(_chance.Whole(70, 130) * 3, "anchors", "laying anchors, field " + field.Name, "contractor");
            if (zones.Add(field.Zone)) Trials(field);
            WorkField(field);
        }

        Log(SiteTime.LastMorning, "waiting", "no set-ups left in plan", "contractor");
    }

    /// <summary>The first barge in a zone builds two trial piles beside it, and the zone's first piles wait for their release.</summary>
    private void Trials(AnchorField field)
    {
        var zone = ZoneDesign.All.Single(design => design.Code == field.Zone);
        var first = _barge.Name switch { "Tern" when field.Zone == "A" => 1, "Plover" when field.Zone == "B" => 3, "Curlew" when field.Zone == "C" => 5, _ => 0 };
        if (first == 0) return;
        if (!Prepare()) return;
        _setUps++;
        var heading = field.SetUps[0].HeadingOnSite;
        var made = Barge.CasingNumbers.Where(casing => casing != 2)
            .Select((casing, index) => _process.Trial(_barge, _setUps, casing, zone, FormattableString.Invariant($"T-{first + index:00}"), heading, _now))
            .ToList();
        Finish(made);
        Spend(12 * 60, "hold point", "release of first piles, zone " + field.Zone, "owner");
    }

    private void WorkField(AnchorField field)
    {
        var again = new List<Installation>();
        foreach (var setUp in field.SetUps)
        {
            if (!Prepare()) return;
            _setUps++;
            var made = setUp.PileByCasing.OrderBy(pair => pair.Key)
                .Select(pair => _process.First(_barge, _setUps, pair.Key, pair.Value, setUp.HeadingOnSite, _now))
                .ToList();
            again.AddRange(made.Where(each => each.Outcome == "abandoned" || (each.Outcome == "interrupted" && _chance.Chance(0.7))));
            Finish(made);
        }

        foreach (var before in again)
        {
            if (!Prepare()) return;
            _setUps++;
            Finish([_process.Again(before, _setUps, before.HeadingOnSite, _now)]);
        }
    }

    /// <summary>All that must be so before casings touch down. False at the end of the period.</summary>
    private bool Prepare()
    {
        Survey();
        if (_sand < 200)
        {
            Spend(_chance.Whole(45, 75) * 3, "sand", "loading from sand barge", "contractor");
            _sand = FullHopper;
        }

        if (_chance.Chance(0.013))
            Spend(3 * Math.Min(420, 30 + (int)_chance.Exponential(110)), "break-down", Part(), "contractor");
        // A new crew winches slowly: half an hour more a move at first, a third of that after nine days.
        var learning = 3 * (int)Math.Round(10 * Math.Exp(-(_now - _arrived).TotalDays / 8));
        Spend((_chance.Whole(5, 11) * 3) + learning, "moving", "winching to the next set-up", "contractor");
        WaitForSeaAndDay();
        return _now.AddMinutes(80) < SiteTime.LastMorning;
    }

    private string Part() => _chance.Whole(0, 4) switch
    {
        0 => "vibrator",
        1 => "compressor",
        2 => "anchor winch",
        3 => "air hose",
        _ => "sand bucket hoist",
    };

    private void Survey()
    {
        var day = SiteTime.WorkingDayOf(_now);
        if (day == _surveyed || SiteTime.IsRestDay(day)) return;
        _surveyed = day;
        Spend(30, "survey", "daily check of antennas and draught marks", "contractor");
    }

    /// <summary>Waits until the sea is calm for the set-up and the next rest day is far enough away.</summary>
    private void WaitForSeaAndDay()
    {
        while (_now < SiteTime.LastMorning)
        {
            var rest = SiteTime.NextRest(_now);
            if (rest == _now || rest < _now.AddMinutes(81))
            {
                Log(rest, "waiting", "no time for a set-up before the rest day", "contractor");
                RestIfDue();
                continue;
            }

            var workable = Rounded(_sea.NextWorkable(_now));
            if (workable == _now) return;
            Log(workable < rest ? workable : rest, "standby", "weather", "shared");
            RestIfDue();
        }
    }

    private void RestIfDue()
    {
        while (_now < SiteTime.LastMorning && SiteTime.IsRestDay(SiteTime.WorkingDayOf(_now)))
            Log(SiteTime.BeginOf(SiteTime.WorkingDayOf(_now).AddDays(1)), "rest day", "no work planned", "none");
    }

    private void Finish(IReadOnlyList<Installation> made)
    {
        Installations.AddRange(made);
        _sand -= made.Sum(each => each.Truth.Sand);
        Log(Rounded(made.Max(each => each.End).AddMinutes(1)), "installing", "piles", "contractor");
    }

    private void Spend(int minutes, string activity, string cause, string borneBy)
    {
        RestIfDue();
        Log(_now.AddMinutes(minutes), activity, cause, borneBy);
        RestIfDue();
    }

    private void Log(DateTime until, string activity, string cause, string borneBy)
    {
        var end = until < SiteTime.LastMorning ? until : SiteTime.LastMorning;
        if (end <= _now) return;
        Diary.Add(_now, end, activity, cause, borneBy);
        _now = end;
    }

    /// <summary>Up to the next three minutes, so that hours in the diary are whole twentieths.</summary>
    private static DateTime Rounded(DateTime moment)
    {
        var over = moment.Minute % 3;
        return over == 0 ? moment : moment.AddMinutes(3 - over);
    }
}
