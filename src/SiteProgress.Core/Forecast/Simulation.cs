namespace SiteProgress.Core.Forecast;

/// <summary>
/// Plays the rest of the work through again and again. A run draws blocks of past working days, the same days for all barges,
/// and lets every barge do on a day what it did on the drawn one.
/// </summary>
/// <remarks>
/// Moving blocks after Künsch, "The jackknife and the bootstrap for general stationary observations", 1989, laid round a circle
/// (Politis and Romano, 1992). A run that doubts the history draws its whole history from blocks first, and the future from that
/// one: the spread between such histories is what a short record leaves unknown.
/// </remarks>
internal sealed class Simulation
{
    private readonly ForecastInput _input;
    private readonly ForecastOptions _options;
    private readonly HistoryPool _pool;
    private readonly FutureDays _future;
    private readonly ChanceStream _chance;
    private readonly int[] _groupOfMonth = new int[13];
    private readonly int[][] _groups;
    private readonly int[][] _believed;
    private readonly int[] _left;
    private readonly int[] _ownStart;
    private readonly int[] _daysThere;

    public Simulation(ForecastInput input, ForecastOptions options)
    {
        (_input, _options) = (input, options);
        _pool = HistoryPool.Of(input, options);
        _future = new FutureDays(input);
        _chance = new ChanceStream(options.Seed);
        List<int[]> groups = [Enumerable.Range(0, _pool.Days.Length).ToArray()];
        for (int month = 1; month <= 12; month++)
        {
            int[] days = _pool.DaysOf(month, options.LeastDaysOfMonth);
            if (days.Length == _pool.Days.Length) continue;
            _groupOfMonth[month] = groups.Count;
            groups.Add(days);
        }

        _groups = groups.ToArray();
        _believed = Array.ConvertAll(_groups, group => (int[])group.Clone());
        _left = new int[input.Zones.Count];
        _ownStart = new int[input.Barges.Count];
        _daysThere = new int[input.Barges.Count];
    }

    public FutureDays Future => _future;

    public HistoryPool Pool => _pool;

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
        for (int ahead = 0; ahead < FutureDays.Most; ahead++)
        {
            if (!_future.Worked[ahead]) continue;
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
        for (int ahead = 0; ahead < calendarDays; ahead++)
        {
            if (_future.Worked[ahead]) done += Work(ahead, ref blocks, none);
        }

        return done;
    }

    private int Begin()
    {
        if (_options.DoubtHistory) Believe();
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

    private void Believe()
    {
        for (int group = 0; group < _groups.Length; group++)
        {
            int[] from = _groups[group];
            int[] to = _believed[group];
            for (int place = 0; place < to.Length;)
            {
                int start = _chance.Below(from.Length);
                for (int step = 0; step < _options.BlockDays && place < to.Length; step++)
                {
                    to[place++] = from[start];
                    if (++start == from.Length) start = 0;
                }
            }
        }
    }

    /// <summary>One working day of all barges.</summary>
    /// <returns>Set-ups done.</returns>
    private int Work(int ahead, ref Blocks blocks, Span<int> zoneFinish)
    {
        int group = _groupOfMonth[_future.Month[ahead]];
        int[] believed = _believed[group];
        if (blocks.StepsLeft == 0 || blocks.Group != group)
        {
            blocks = new Blocks { StepsLeft = _options.BlockDays, Group = group, At = _chance.Below(believed.Length) };
            for (int barge = 0; barge < _ownStart.Length; barge++) _ownStart[barge] = -1;
        }

        int drawn = believed[blocks.At];
        if (++blocks.At == believed.Length) blocks.At = 0;
        blocks.StepsLeft--;
        int done = 0;
        for (int barge = 0; barge < _ownStart.Length; barge++)
        {
            if (_future.Present[barge][ahead]) done += Build(barge, ahead, Output(barge, drawn), zoneFinish);
        }

        return done;
    }

    private int Output(int barge, int drawn)
    {
        int output = _pool.Output[barge][drawn];
        if (output == HistoryPool.NotThere)
        {
            int[] own = _pool.Own[barge];
            if (own.Length == 0) return 0;
            int at = _ownStart[barge] < 0 ? _chance.Below(own.Length) : (_ownStart[barge] + 1) % own.Length;
            _ownStart[barge] = at;
            output = own[at];
        }

        bool ramping = _daysThere[barge]++ < _options.RampDays;
        double factor = _pool.IsNew[barge] ? (ramping ? _pool.RampRatio : 1) : (ramping ? 1 : _pool.LaterFactor[barge]);
        if (factor == 1) return output;
        double scaled = output * factor;
        int whole = (int)scaled;
        return whole + (_chance.Uniform() < scaled - whole ? 1 : 0);
    }

    private int Build(int barge, int ahead, int output, Span<int> zoneFinish)
    {
        int done = 0;
        bool[]? closed = _future.Closed[ahead];
        foreach (int zone in _future.ZoneOrder[barge])
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

    private struct Blocks
    {
        public int StepsLeft;
        public int Group;
        public int At;
    }
}
