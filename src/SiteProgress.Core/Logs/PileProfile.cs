namespace SiteProgress.Core.Logs;

/// <summary>
/// The final pile from the turning points of its building: each cycle leaves its sand over what it rose. Strokes on the spot
/// count with the next rising one; a pass that goes deeper than the last replaces what it re-penetrates (common practice,
/// no source). Volumes in metres of casing.
/// </summary>
internal sealed class PileProfile
{
    private readonly double[] _from, _to, _sand;

    public PileProfile(int mostSegments)
    {
        _from = new double[mostSegments];
        _to = new double[mostSegments];
        _sand = new double[mostSegments];
    }

    public int Count { get; private set; }

    /// <summary>True when the last segment is what the pull-out left.</summary>
    public bool EndsInPullOut { get; private set; }

    public (double From, double To, double Sand) this[int index] => (_from[index], _to[index], _sand[index]);

    /// <summary>Builds the pile.</summary>
    /// <param name="bottoms">Level of each bottom from the base on, metres.</param>
    /// <param name="left">Sand left at each bottom, and at the end, metres of casing: one more than the bottoms.</param>
    /// <param name="sandStopped">Tip level at which sand stopped leaving in the pull-out.</param>
    /// <param name="constants">The numbers by which it is read.</param>
    public void Build(ReadOnlySpan<double> bottoms, ReadOnlySpan<double> left, double sandStopped, LogConstants constants)
    {
        Count = 0;
        EndsInPullOut = false;
        double at = bottoms[0], onTheSpot = 0;
        for (int cycle = 0; cycle + 1 < bottoms.Length; cycle++)
        {
            double end = bottoms[cycle + 1], sand = left[cycle + 1] - left[cycle];
            if (end < at - constants.NewPassMetres)
            {
                CutAbove(end);
                (at, onTheSpot) = (end, 0);
            }
            else if (end - at < constants.SmallestRiseMetres)
            {
                onTheSpot += sand;
                at = Math.Min(at, end);
            }
            else
            {
                Add(at, end, sand + onTheSpot);
                (at, onTheSpot) = (end, 0);
            }
        }

        double pulledOut = left[bottoms.Length] - left[bottoms.Length - 1];
        if (sandStopped - at >= constants.SmallestRiseMetres)
        {
            Add(at, sandStopped, Math.Max(0, pulledOut) + onTheSpot);
            EndsInPullOut = true;
        }
        else if (Count > 0)
        {
            _sand[Count - 1] += onTheSpot;
        }
    }

    /// <summary>Sand between two levels, metres of casing.</summary>
    public double Between(double from, double to)
    {
        double sum = 0;
        for (int index = 0; index < Count; index++)
        {
            double overlap = Math.Min(to, _to[index]) - Math.Max(from, _from[index]);
            if (overlap > 0) sum += _sand[index] * overlap / (_to[index] - _from[index]);
        }

        return sum;
    }

    /// <summary>
    /// Least sand of any sliding window of this length between base and cut-off, and where it begins. Sand below a level is a
    /// piecewise straight line, so the least lies where one end of the window is at an end of a segment or of the pile.
    /// </summary>
    public (double Sand, double From) Least(double bottom, double top, double length)
    {
        if (top - bottom <= length) return (Between(bottom, top), bottom);
        (double Sand, double From) least = (Between(bottom, bottom + length), bottom);
        double last = Between(top - length, top);
        if (last < least.Sand) least = (last, top - length);
        Walk(0, bottom, top, length, ref least);
        Walk(-length, bottom, top, length, ref least);
        return least;
    }

    /// <summary>Windows that begin (or, shifted by their length, end) at each segment's upper end; both ends move upward only.</summary>
    private void Walk(double shift, double bottom, double top, double length, ref (double Sand, double From) least)
    {
        int low = 0, high = 0;
        double belowLow = 0, belowHigh = 0;
        for (int index = 0; index < Count; index++)
        {
            double from = _to[index] + shift;
            if (from < bottom || from + length > top) continue;
            double sand = Below(from + length, ref high, ref belowHigh) - Below(from, ref low, ref belowLow);
            if (sand < least.Sand) least = (sand, from);
        }
    }

    private double Below(double level, ref int segment, ref double whole)
    {
        while (segment < Count && _to[segment] <= level) whole += _sand[segment++];
        if (segment == Count || level <= _from[segment]) return whole;
        return whole + (_sand[segment] * (level - _from[segment]) / (_to[segment] - _from[segment]));
    }

    private void Add(double from, double to, double sand)
    {
        if (Count == _from.Length) return;
        (_from[Count], _to[Count], _sand[Count]) = (from, to, sand);
        Count++;
    }

    private void CutAbove(double level)
    {
        while (Count > 0 && _from[Count - 1] >= level) Count--;
        if (Count == 0 || _to[Count - 1] <= level) return;
        int last = Count - 1;
        _sand[last] *= (level - _from[last]) / (_to[last] - _from[last]);
        _to[last] = level;
    }
}
