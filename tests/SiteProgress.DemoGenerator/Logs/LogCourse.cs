namespace SiteProgress.DemoGenerator.Logs;

/// <summary>
/// The true course of one pile: knots of time, tip level and sand height above the tip, straight between; charges; valve. Sand
/// follows the mass balance: what the casing leaves in a cycle is its area times withdrawal less push-back less what hung.
/// </summary>
public sealed class LogCourse
{
    private readonly LogDesign _design;
    private readonly ChanceSource _chance;
    private readonly List<double> _bottoms = [], _sand = [];
    private readonly List<TrueHangUp> _hangUps = [];
    private double _time, _tip, _height;
    private double _charged;

    public LogCourse(LogDesign design, ChanceSource chance)
    {
        (_design, _chance) = (design, chance);
        (_tip, _height) = (design.Seabed + chance.Between(0.3, 1.2), 0);
        Knots.Add((0, _tip, _height));
        GoDown();
        var building = Knots.Count;
        var before = _time;
        Build();
        if (design.BuildingMinutes is { } minutes) Stretch(building, before, minutes * 60);
        EndOfBuilding = _time;
    }

    public List<(double Time, double Tip, double Height)> Knots { get; } = [];

    /// <summary>True moment of the end of each pour, and its true volume.</summary>
    public List<(double Time, double Volume)> Charges { get; } = [];

    /// <summary>From when to when the valve is open.</summary>
    public (double From, double To) ValveOpen { get; private set; }

    public double EndOfPenetration { get; private set; }

    public double EndOfBuilding { get; private set; }

    public LogTruth Truth { get; private set; } = null!;

    private void GoDown()
    {
        Wait(_chance.Between(10, 30));
        var fill = Math.Min(_design.CasingLength - 12, _chance.Between(16, 24));
        while (_height < fill - 3) Pour(_chance.Between(5, 8));
        Wait(_chance.Between(5, 20));
        var begin = (_time, Knots.Count);
        var depth = _tip - _design.Tip;
        var steps = _chance.Whole(6, 11);
        for (var step = 1; step <= steps; step++)
        {
            var to = _tip - (depth / steps);
            if (step == steps) to = _design.Tip;
            Move(to, _chance.Between(0.9, 1.6) * 0.03 * (1.3 - (0.9 * step / steps)));
            if (_design.SoilEnters && step == steps / 2 + 1) Raise(_chance.Between(1.6, 2.4), 30);
            if (_chance.Chance(0.25)) Wait(_chance.Between(4, 15));
        }

        if (_design.PenetrationMinutes is { } minutes) Stretch(begin.Count, begin.Item1, minutes * 60);
        EndOfPenetration = _time;
        Wait(_chance.Between(12, 30));
    }

    private void Build()
    {
        ValveOpen = (_time, double.PositiveInfinity);
        _bottoms.Add(_tip);
        for (var stroke = 0; stroke < _design.BaseStrokes; stroke++) BaseStroke();
        var plan = _design.HangUps.OrderBy(hang => hang.Share).ToList();
        var length = _design.Top - _design.Tip;
        var over = OverSand();
        while (_tip < _design.Top - 0.25)
        {
            var net = NextRise();
            var hang = plan.Count > 0 && (_tip + net - _design.Tip) / length >= plan[0].Share ? plan[0] : null;
            if (hang is not null) plan.RemoveAt(0);
            Cycle(net, over * (1 + _chance.Normal(0, 0.025)), hang);
        }

        PullOut();
        Truth = new LogTruth
        {
            Bottoms = _bottoms,
            CycleSand = _sand.Take(_sand.Count - 1).ToList(),
            PullOutSand = _sand[^1],
            SandStopped = _stopped,
            HangUps = _hangUps.Select(hang => hang with { Closed = ClosedLater(hang) }).ToList(),
            Segments = Segments(),
            Charged = _charged,
        };
    }

    private double _stopped;
    private readonly List<int> _hangCycle = [];

    private bool ClosedLater(TrueHangUp hang) =>
        _bottoms.Skip(_hangCycle[_hangUps.FindIndex(one => one.FromLevel == hang.FromLevel)] + 1).Any(bottom => bottom <= hang.FromLevel);

    /// <summary>Ratio of the sand to what the design needs; where the sand is given, so that cycles and pull-out make it up.</summary>
    private double OverSand() => _design.Sand is { } sand
        ? (sand - (_design.Area * 0.35)) * _design.VolumeFactor / (Math.PI / 4 * _design.Diameter * _design.Diameter * (_design.Top - _design.Tip))
        : _chance.Between(1.01, 1.12);

    private double NextRise()
    {
        var left = _design.Top - _tip;
        var cycles = Math.Max(1, Math.Round(left));
        var net = left / cycles * _chance.Between(0.85, 1.15);
        return left - net < 0.55 ? left : net;
    }

    private void BaseStroke()
    {
        var stroke = _chance.Between(0.9, 1.4);
        var pushed = _chance.Between(0.05, 0.2);
        Ready(stroke);
        var before = Leaving;
        Rise(stroke, null);
        Drive(_bottoms[0] + _chance.Between(-0.04, 0.06), pushed);
        Close(before);
    }

    private void Cycle(double net, double over, PlannedHangUp? hang)
    {
        var thin = _design.Thin is { } place && Math.Abs(_tip + (net / 2) - place.Level) < 0.8 ? 1 - place.Ratio : 1;
        var needed = Math.PI / 4 * _design.Diameter * _design.Diameter * net * over * thin / _design.VolumeFactor;
        var pushed = _chance.Between(0, 0.3);
        var stroke = Math.Max(net + 0.6, (needed / _design.Area) + pushed);
        Ready(stroke);
        var (from, before) = (_tip, Leaving);
        Rise(stroke, hang);
        var repair = hang is not null && _design.Repairs;
        Drive(repair ? Math.Max(_design.Tip + 0.3, from - _chance.Between(1.2, 2.5)) : from + net, pushed);
        Close(before);
    }

    private double Leaving => (_charged / _design.Area) - _height;

    private void Close(double leavingBefore)
    {
        _sand.Add((Leaving - leavingBefore) * _design.Area);
        _bottoms.Add(_tip);
    }

    /// <summary>Sand for the next stroke: filled while the casing stands, or, now and then, while it rises.</summary>
    private void Ready(double stroke)
    {
        Wait(_chance.Between(4, 12));
        _fillWhileRising = false;
        if (_height >= stroke + 2) return;
        _fillWhileRising = _height >= (0.6 * stroke) + 1.6 && _chance.Chance(0.5);
        if (_fillWhileRising) return;
        Wait(_chance.Between(18, 30));
        var wanted = Math.Min(stroke + _chance.Between(6, 16), _design.CasingLength - 14);
        while (_height < wanted) Pour(_chance.Between(5, 8));
        Wait(_chance.Between(28, 45));
    }

    private bool _fillWhileRising;

    private void Rise(double stroke, PlannedHangUp? hang)
    {
        var speed = _chance.Between(0.045, 0.08);
        var from = _tip;
        if (hang is not null && !_fillWhileRising)
        {
            var before = _chance.Between(0.25, Math.Max(0.3, stroke - hang.Length - 0.4));
            LeaveWhileRising(before, speed);
            _hangUps.Add(new TrueHangUp(_tip, hang.Length, false));
            _hangCycle.Add(_bottoms.Count - 1);
            Move(_tip + hang.Length, speed);
            LeaveWhileRising(Math.Max(0.35, stroke - hang.Length - before), speed);
        }
        else if (_fillWhileRising)
        {
            LeaveWhileRising(0.45 * stroke, speed);
            PourWhileRising(_chance.Between(6, 8), speed);
            if (from + stroke - _tip > 0.1) LeaveWhileRising(from + stroke - _tip, speed);
        }
        else
        {
            LeaveWhileRising(stroke, speed);
        }

        Wait(_chance.Between(3, 8));
    }

    private void Drive(double to, double pushed)
    {
        var seconds = (_tip - to) / _chance.Between(0.05, 0.09);
        Knot(_time + seconds, to, _height + pushed);
    }

    private void PullOut()
    {
        Wait(_chance.Between(4, 10));
        var before = Leaving;
        LeaveWhileRising(Math.Min(_height, _chance.Between(0.2, 0.5)), 0.06);
        _stopped = _tip;
        ValveOpen = (ValveOpen.From, _time);
        EndOfBuilding = _time;
        Move(_design.Seabed + _chance.Between(2, 4), 0.12);
        Wait(_chance.Between(10, 30));
        _sand.Add((Leaving - before) * _design.Area);
    }

    private List<(double From, double To, double Sand)> Segments()
    {
        var segments = new List<(double From, double To, double Sand)>();
        double at = _bottoms[0], waiting = 0;
        for (var cycle = 0; cycle + 1 < _bottoms.Count; cycle++)
        {
            var end = _bottoms[cycle + 1];
            if (end < at - 0.3)
            {
                while (segments.Count > 0 && segments[^1].From >= end) segments.RemoveAt(segments.Count - 1);
                if (segments.Count > 0 && segments[^1].To > end)
                {
                    var (from, to, sand) = segments[^1];
                    segments[^1] = (from, end, sand * (end - from) / (to - from));
                }

                (at, waiting) = (end, 0);
            }
            else if (end - at < 0.2)
            {
                waiting += _sand[cycle];
                at = Math.Min(at, end);
            }
            else
            {
                segments.Add((at, end, _sand[cycle] + waiting));
                (at, waiting) = (end, 0);
            }
        }

        if (_stopped - at >= 0.2) segments.Add((at, _stopped, _sand[^1] + waiting));
        return segments;
    }

    private void Pour(double volume)
    {
        var seconds = _chance.Between(7, 14);
        Knot(_time + seconds, _tip, _height + (volume / _design.Area));
        Charged(volume);
        Wait(_chance.Between(15, 40));
    }

    private void PourWhileRising(double volume, double speed)
    {
        var seconds = _chance.Between(7, 12);
        Knot(_time + seconds, _tip + (speed * seconds), _height + (volume / _design.Area) - (speed * seconds));
        Charged(volume);
    }

    private void Charged(double volume)
    {
        _charged += volume;
        Charges.Add((_time, volume));
    }

    private void Raise(double height, double seconds) => Knot(_time + seconds, _tip, _height + height);

    private void Wait(double seconds) => Knot(_time + seconds, _tip, _height);

    private void Move(double to, double speed) => Knot(_time + (Math.Abs(to - _tip) / speed), to, _height);

    private void LeaveWhileRising(double rise, double speed) => Knot(_time + (rise / speed), _tip + rise, Math.Max(0, _height - rise));

    private void Knot(double time, double tip, double height)
    {
        (_time, _tip, _height) = (time, tip, height);
        Knots.Add((time, tip, height));
    }

    /// <summary>Stretches time from a knot on, so that what follows takes so many seconds.</summary>
    private void Stretch(int fromKnot, double from, double seconds)
    {
        var ratio = seconds / (_time - from);
        double New(double time) => time <= from ? time : from + ((time - from) * ratio);
        for (var knot = fromKnot; knot < Knots.Count; knot++) Knots[knot] = Knots[knot] with { Time = New(Knots[knot].Time) };
        for (var charge = 0; charge < Charges.Count; charge++) Charges[charge] = Charges[charge] with { Time = New(Charges[charge].Time) };
        ValveOpen = (New(ValveOpen.From), New(ValveOpen.To));
        _time = New(_time);
    }
}
