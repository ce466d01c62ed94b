namespace SiteProgress.Core.Forecast;

/// <summary>
/// Plays the rest of the work through again and again. A run draws blocks of past working days, the same days for all barges,
/// and lets every barge do on a day what it did on the drawn one.
/// </summary>
/// <remarks>
/// Moving blocks after Künsch, "The jackknife and the bootstrap for general stationary observations", 1989, laid round a circle
/// (Politis and Romano, 1992). A run that doubts the history first draws which of its blocks to believe in (<see cref="Belief"/>).
/// </remarks>
internal sealed class Simulation
{
    private readonly ForecastInput _input;
    private readonly ForecastOptions _options;
    private readonly HistoryPool _pool;
    private readonly FutureDays _future;
    private readonly ChanceStream _chance;
    private readonly int[] _groupAhead;
    private readonly Belief[] _beliefs;
    private readonly double[] _carried;
    private readonly int[] _left;
    private readonly int[] _ownStart;
    private readonly int[] _ownBlock;
    private readonly int[] _daysThere;
    private readonly int[] _front;

    public Simulation(ForecastInput input, ForecastOptions options)
    {
        (_input, _options, _pool, _future) = (input, options, HistoryPool.Of(input, options), new FutureDays(input));
        _chance = new ChanceStream(options.Seed);
        double[] shares = _pool.DayShares();
        int block = options.BlockDays ?? Belief.BlockFor(_pool.Days.Length);
        List<Belief> beliefs = [new Belief(Enumerable.Range(0, _pool.Days.Length).ToArray(), shares, block, options.DoubtHistory)];
        int[] groupOfMonth = new int[13];
        for (int month = 1; month <= 12; month++)
        {
            int[] days = _pool.DaysOf(month, options.LeastDaysOfMonth);
            if (days.Length == _pool.Days.Length) continue;
            groupOfMonth[month] = beliefs.Count;
            beliefs.Add(new Belief(days, shares, block, options.DoubtHistory));
        }

        _beliefs = beliefs.ToArray();
        _groupAhead = Array.ConvertAll(_future.Month, month => groupOfMonth[month]);
        _carried = new double[input.Barges.Count];
        _left = new int[input.Zones.Count];
        _ownStart = new int[input.Barges.Count];
        _ownBlock = new int[input.Barges.Count];
        _daysThere = new int[input.Barges.Count];
        _front = new int[input.Barges.Count];
    }

    private Simulation(Simulation other, int stream)
    {
        (_input, _options, _pool, _future, _groupAhead) = (other._input, other._options, other._pool, other._future, other._groupAhead);
        // Each stream begins elsewhere: the multiplier is splitmix64's own step, so streams are as far apart as its seeds.
        _chance = new ChanceStream(_options.Seed + ((ulong)stream * 0x9E3779B97F4A7C15UL * 5));
        _beliefs = Array.ConvertAll(other._beliefs, belief => belief.Beside());
        _carried = new double[_input.Barges.Count];
        _left = new int[_input.Zones.Count];
        _ownStart = new int[_input.Barges.Count];
        _ownBlock = new int[_input.Barges.Count];
        _daysThere = new int[_input.Barges.Count];
        _front = new int[_input.Barges.Count];
    }

    public FutureDays Future => _future;

    public HistoryPool Pool => _pool;

    /// <summary>The same work with chance of its own, to be played beside this one.</summary>
    public Simulation Beside(int stream) => new(this, stream);

    /// <summary>True when there is anything to draw from.</summary>
    public bool CanRun => _pool.Own.Any(own => own.Length > 0);

    /// <summary>Plays one run to its end.</summary>
    /// <param name="zoneFinish">Takes the days ahead at which each zone was done; <see cref="FutureDays.Most"/> where it was not.</param>
    /// <returns>The days ahead at which all was done; <see cref="FutureDays.Most"/> where it was not.</returns>
    public int Finish(Span<int> zoneFinish)
    {
        int left = Begin();
        for (int zone = 0; zone < _left.Length; zone++) zoneFinish[zone] = _left[zone] == 0 ? -1 : FutureDays.Most;
        if (left == 0) return -1;
        Blocks blocks = default;
        foreach (int ahead in _future.WorkedAhead)
        {
            left -= Work(ahead, ref blocks, zoneFinish);
            if (left == 0) return ahead;
        }

        return FutureDays.Most;
    }

    /// <summary>Set-ups that the barges there now would do in so many calendar days ahead, without a bound on the work left.</summary>
    public int DoneIn(int calendarDays)
    {
        Begin();
        Array.Fill(_left, int.MaxValue / 2);
        Blocks blocks = default;
        int done = 0;
        Span<int> none = stackalloc int[_left.Length];
        foreach (int ahead in _future.WorkedAhead)
        {
            if (ahead >= calendarDays) break;
            done += Work(ahead, ref blocks, none);
        }

        return done;
    }

    private int Begin()
    {
        foreach (Belief belief in _beliefs) belief.Draw(_chance);
        Array.Clear(_carried);
        Array.Clear(_front);
        Array.Clear(_ownBlock);
        double share = _input.Rework.SetUps > 0
            ? _options.ReworkFactor * (_options.DoubtHistory
                ? _chance.Beta(_input.Rework.Again + 0.5, _input.Rework.SetUps - _input.Rework.Again + 0.5)
                : (double)_input.Rework.Again / _input.Rework.SetUps)
            : 0;
        int left = 0;
        for (int zone = 0; zone < _left.Length; zone++)
        {
            int setUps = _input.Zones[zone].SetUps;
            if (share > 0) setUps += _chance.Successes(setUps, Math.Min(share, 0.9));
            // A barge that is slower by a factor is one with so much more to do.
            _left[zone] = _options.RateFactor == 1 ? setUps : (int)Math.Ceiling(setUps / _options.RateFactor);
            left += _left[zone];
        }

        for (int barge = 0; barge < _daysThere.Length; barge++) _daysThere[barge] = _input.Barges[barge].Days.Count;
        return left;
    }

    /// <summary>One working day of all barges.</summary>
    /// <returns>Set-ups done.</returns>
    private int Work(int ahead, ref Blocks blocks, Span<int> zoneFinish)
    {
        int group = _groupAhead[ahead];
        Belief belief = _beliefs[group];
        if (blocks.StepsLeft == 0 || blocks.Group != group)
        {
            int start = belief.Start(_chance);
            (blocks.StepsLeft, blocks.Group, blocks.At, blocks.Factor) = (belief.Block, group, start, belief.FactorOf(start));
            blocks.Number++;
        }

        int drawn = belief.DayAt(blocks.At++);
        blocks.StepsLeft--;
        int done = 0;
        bool[][] present = _future.Present;
        for (int barge = 0; barge < present.Length; barge++)
        {
            if (present[barge][ahead]) done += Build(barge, ahead, Output(barge, drawn, in blocks), zoneFinish);
        }

        return done;
    }

    private int Output(int barge, int drawn, in Blocks blocks)
    {
        int output = _pool.Output[barge][drawn];
        if (output == HistoryPool.NotThere && !Own(barge, blocks.Number, out output)) return 0;
        bool ramping = _daysThere[barge]++ < _options.RampDays;
        double factor = blocks.Factor * (_pool.IsNew[barge] ? (ramping ? _pool.RampRatio : 1) : (ramping ? 1 : _pool.LaterFactor[barge]));
        if (factor == 1) return output;
        // What is less than a whole set-up goes on the next day.
        double scaled = (output * factor) + _carried[barge];
        int whole = (int)scaled;
        _carried[barge] = scaled - whole;
        return whole;
    }

    /// <summary>A day of the barge's own where the drawn one has nothing of it: within a block, days that follow each other.</summary>
    private bool Own(int barge, int block, out int output)
    {
        int[] own = _pool.Own[barge];
        output = 0;
        if (own.Length == 0) return false;
        int at = _ownBlock[barge] != block ? _chance.Below(own.Length) : (_ownStart[barge] + 1) % own.Length;
        (_ownStart[barge], _ownBlock[barge]) = (at, block);
        output = own[at];
        return true;
    }

    private int Build(int barge, int ahead, int output, Span<int> zoneFinish)
    {
        int[] order = _future.ZoneOrder[barge];
        bool[]? closed = _future.Closed[ahead];
        // What nearly every day is: all of it goes into the first zone of the barge that is not done.
        if (closed is null && _front[barge] < order.Length && output < _left[order[_front[barge]]])
        {
            _left[order[_front[barge]]] -= output;
            return output;
        }

        return BuildOver(barge, ahead, output, zoneFinish);
    }

    private int BuildOver(int barge, int ahead, int output, Span<int> zoneFinish)
    {
        int done = 0;
        bool[]? closed = _future.Closed[ahead];
        int[] order = _future.ZoneOrder[barge];
        while (_front[barge] < order.Length && _left[order[_front[barge]]] == 0) _front[barge]++;
        for (int place = _front[barge]; place < order.Length; place++)
        {
            int zone = order[place];
            if (output == done) break;
            if (_left[zone] == 0 || closed?[zone] == true) continue;
            int built = Math.Min(output - done, _left[zone]);
            _left[zone] -= built;
            done += built;
            if (_left[zone] == 0) zoneFinish[zone] = ahead;
        }

        return done;
    }

    private struct Blocks
    {
        public int StepsLeft;
        public int Group;
        public int At;
        public double Factor;
        public int Number;
    }
}
