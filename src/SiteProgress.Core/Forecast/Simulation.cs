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
    private readonly int[] _group;
    private readonly int[] _alikeUntil;
    private readonly Belief[] _beliefs;
    private readonly BlockOutputs[] _outputs;
    private readonly BargeAtWork[] _barges;
    private readonly int[] _left;

    // While whole blocks are gathered: factor on each barge's output, what it did, the zone it works in, and what is left of each zone.
    private readonly double[] _weight;
    private readonly double[] _gathered;
    private readonly int[] _zone;
    private readonly double[] _room;
    private int _block;

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
        _outputs = Array.ConvertAll(_beliefs, belief => new BlockOutputs(belief, _pool));
        _group = Array.ConvertAll(_future.WorkedAhead, ahead => groupOfMonth[_future.Month[ahead]]);
        _alikeUntil = AlikeUntil(_future, _group);
        (_barges, _left, _room) = (Barges(), new int[input.Zones.Count], new double[input.Zones.Count]);
        (_weight, _gathered, _zone) = (new double[_barges.Length], new double[_barges.Length], new int[_barges.Length]);
    }

    private Simulation(Simulation other, int stream)
    {
        (_input, _options, _pool, _future, _group, _alikeUntil, _outputs) = (other._input, other._options, other._pool, other._future, other._group, other._alikeUntil, other._outputs);
        // Each stream begins elsewhere: the multiplier is splitmix64's own step, so streams are as far apart as its seeds.
        _chance = new ChanceStream(_options.Seed + ((ulong)stream * 0x9E3779B97F4A7C15UL * 5));
        _beliefs = Array.ConvertAll(other._beliefs, belief => belief.Beside());
        (_barges, _left, _room) = (Barges(), new int[_input.Zones.Count], new double[_input.Zones.Count]);
        (_weight, _gathered, _zone) = (new double[_barges.Length], new double[_barges.Length], new int[_barges.Length]);
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
        return left == 0 ? -1 : Play(ref left, _group.Length, zoneFinish);
    }

    /// <summary>Set-ups that the barges there now would do in so many calendar days ahead, without a bound on the work left.</summary>
    public int DoneIn(int calendarDays)
    {
        Begin();
        Array.Fill(_left, int.MaxValue / 2);
        int left = int.MaxValue, places = 0;
        while (places < _group.Length && _future.WorkedAhead[places] < calendarDays) places++;
        Play(ref left, places, stackalloc int[_left.Length]);
        return int.MaxValue - left;
    }

    private BargeAtWork[] Barges() => [.. _input.Barges.Select((barge, index) => new BargeAtWork(_pool, _future, index, barge.Days.Count, _options.RampDays))];

    /// <summary>
    /// By place among the worked days: the first place from which it is not so any more that the same barges are there, days are drawn
    /// from the same group and no zone is closed.
    /// </summary>
    private static int[] AlikeUntil(FutureDays future, int[] group)
    {
        int[] worked = future.WorkedAhead, until = new int[worked.Length];
        for (int place = worked.Length - 1; place >= 0; place--)
        {
            int next = place + 1;
            bool goesOn = next < worked.Length && group[place] == group[next] && Array.TrueForAll(future.Present, there => there[worked[place]] == there[worked[next]]);
            until[place] = future.Closed[worked[place]] is not null ? place : goesOn ? Math.Max(next, until[next]) : next;
        }

        return until;
    }

    private int Begin()
    {
        foreach (Belief belief in _beliefs) belief.Draw(_chance);
        foreach (BargeAtWork barge in _barges) barge.Begin();
        _block = 0;
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

        return left;
    }

    /// <summary>Block after block until nothing is left: whole ones as long as no zone gets done, then one day by day.</summary>
    /// <param name="left">Set-ups left in all.</param>
    /// <param name="places">How many of the worked days ahead are played.</param>
    /// <param name="zoneFinish">Takes the days ahead at which each zone was done.</param>
    /// <returns>The days ahead at which all was done; <see cref="FutureDays.Most"/> where it was not.</returns>
    private int Play(ref int left, int places, Span<int> zoneFinish)
    {
        int[] worked = _future.WorkedAhead;
        int at = 0;
        while (at < places)
        {
            int group = _group[at];
            Belief belief = _beliefs[group];
            (int start, double factor) = BuildBlocks(belief, _outputs[group], ref at, places, ref left);
            int end = Math.Min(at + belief.Block, places);
            for (int place = start; at < end && _group[at] == group; at++)
            {
                left -= BuildDay(worked[at], belief.DayAt(place++), factor, zoneFinish);
                if (left == 0) return worked[at];
            }
        }

        return FutureDays.Most;
    }

    /// <summary>
    /// Draws blocks and takes them whole, each barge doing what the days of a block add up to: what is less than a whole set-up goes on
    /// from day to day, so that only the sum counts.
    /// </summary>
    /// <returns>The first block that has to be played day by day: a zone gets done in it, or its days are not alike.</returns>
    private (int Start, double Factor) BuildBlocks(Belief belief, BlockOutputs outputs, ref int at, int places, ref int left)
    {
        int begin = at, until = at < places ? Math.Min(places, _alikeUntil[at]) : 0;
        bool steady = Gather(_future.WorkedAhead[at]);
        int start;
        double factor;
        while (true)
        {
            start = belief.Start(_chance);
            factor = belief.FactorOf(start);
            _block++;
            if (!steady || at + belief.Block > until || !Take(outputs.From(start), factor)) break;
            at += belief.Block;
        }

        if (at == begin) return (start, factor);
        for (int index = 0; index < _barges.Length; index++)
        {
            if (_weight[index] == 0) continue;
            int built = _barges[index].Settle(_gathered[index], at - begin);
            _left[_zone[index]] -= built;
            left -= built;
        }

        return (start, factor);
    }

    /// <summary>Makes ready to gather whole blocks.</summary>
    /// <returns>False while a barge is in its ramp-up: its days are not alike.</returns>
    private bool Gather(int ahead)
    {
        for (int zone = 0; zone < _left.Length; zone++) _room[zone] = _left[zone];
        for (int index = 0; index < _barges.Length; index++)
        {
            BargeAtWork barge = _barges[index];
            (_weight[index], _gathered[index]) = (barge.IsThere(ahead) ? barge.SteadyFactor : 0, 0);
            if (_weight[index] == 0) continue;
            if (!barge.IsSteady) return false;
            _zone[index] = barge.FrontZone(_left);
            _room[_zone[index]] -= barge.Carried;
        }

        return true;
    }

    /// <summary>Gathers a block of days.</summary>
    /// <returns>False, and nothing gathered, where a zone would get done in it or some day of it has nothing of a barge that is there.</returns>
    private bool Take(ReadOnlySpan<int> outputs, double factor)
    {
        for (int barge = 0; barge < outputs.Length; barge++)
        {
            double gain = outputs[barge] * factor * _weight[barge];
            _gathered[barge] += gain;
            _room[_zone[barge]] -= gain;
            if (gain >= 0 && _room[_zone[barge]] > 0) continue;
            for (; barge >= 0; barge--)
            {
                double undone = outputs[barge] * factor * _weight[barge];
                _gathered[barge] -= undone;
                _room[_zone[barge]] += undone;
            }

            return false;
        }

        return true;
    }

    /// <summary>One working day of all barges.</summary>
    /// <returns>Set-ups done.</returns>
    private int BuildDay(int ahead, int drawn, double factor, Span<int> zoneFinish)
    {
        int done = 0;
        foreach (BargeAtWork barge in _barges)
        {
            if (barge.IsThere(ahead)) done += Build(barge, ahead, barge.On(drawn, _block, factor, _chance), zoneFinish);
        }

        return done;
    }

    private int Build(BargeAtWork barge, int ahead, int output, Span<int> zoneFinish)
    {
        int done = 0;
        bool[]? closed = _future.Closed[ahead];
        foreach (int zone in barge.ZonesLeft(_left))
        {
            if (output == done) break;
            if (_left[zone] == 0 || closed?[zone] == true) continue;
            int built = Math.Min(output - done, _left[zone]);
            _left[zone] -= built;
            done += built;
            if (_left[zone] == 0) zoneFinish[zone] = ahead;
        }

        return done;
    }
}
