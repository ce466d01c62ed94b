using SiteProgress.Core.Coordinates;
using SiteProgress.Core.SetUps;

namespace SiteProgress.Planning;

/// <summary>
/// Moves the layings of a choice, one after the other, to where each still holds what only it holds and as many as can be of the
/// set-ups one would take if anchors cost nothing: the layings stay as few, and fewer set-ups are cut by their edges.
/// </summary>
internal sealed class AnchorShift
{
    private const int Rounds = 3;

    private readonly SiteCoordinate[] _middles;
    private readonly IReadOnlyList<int>[] _brings;
    private readonly bool[] _wanted;
    private readonly AnchorReach _reach;
    private readonly SiteCoordinate[] _lows;
    private readonly int[] _heldPiles;
    private readonly int[] _heldSetUps;
    private readonly bool[] _pinned;

    private AnchorShift(BargePlanRequest request, IReadOnlyList<SetUpCandidate> candidates, AnchorChoice anchors, IReadOnlyList<int> wanted, IReadOnlyCollection<int> pinned)
    {
        _middles = [.. candidates.Select(one => BargePlanner.Middle(request, one))];
        _brings = [.. candidates.Select(one => (IReadOnlyList<int>)[.. one.Builds.Select(over => over.Pile)])];
        (_wanted, _pinned) = (new bool[candidates.Count], new bool[candidates.Count]);
        foreach (int one in wanted) _wanted[one] = true;
        foreach (int one in pinned) _pinned[one] = true;
        (_reach, _lows) = (request.Reach, [.. anchors.Lows]);
        (_heldPiles, _heldSetUps) = (new int[request.Piles.Count], new int[candidates.Count]);
    }

    public static AnchorChoice Of(BargePlanRequest request, IReadOnlyList<SetUpCandidate> candidates, AnchorChoice anchors, IReadOnlyList<int> wanted, IReadOnlyCollection<int> pinned)
    {
        AnchorShift shift = new(request, candidates, anchors, wanted, pinned);
        for (int anchor = 0; anchor < shift._lows.Length; anchor++) shift.Count(shift.Near(anchor).Where(one => shift.Inside(anchor, one)), 1);
        bool moved = true;
        for (int round = 0; moved && round < Rounds; round++)
        {
            moved = false;
            for (int anchor = 0; anchor < shift._lows.Length; anchor++) moved |= shift.Move(anchor);
        }

        return anchors with { Lows = shift._lows };
    }

    private bool Move(int anchor)
    {
        int[] near = [.. Near(anchor)];
        int[] held = [.. near.Where(one => Inside(anchor, one))];
        Count(held, -1);
        HashSet<int> needed = [.. held.SelectMany(one => _brings[one]).Where(pile => _heldPiles[pile] == 0)];
        int[] neededSetUps = [.. held.Where(one => _pinned[one] && _heldSetUps[one] == 0)];
        SiteCoordinate best = _lows[anchor], before = best;
        double worth = Worth(held);
        foreach (double y in near.Select(one => Math.Round(_middles[one].YMetres, 3)).Where(y => Math.Abs(y - before.YMetres) <= _reach.AcrossMetres).Distinct())
        {
            int[] band = [.. near.Where(one => _middles[one].YMetres >= y - 0.001 && _middles[one].YMetres <= y + _reach.AcrossMetres + 0.001)];
            foreach (double x in band.Select(one => Math.Round(_middles[one].XMetres, 3)).Where(x => Math.Abs(x - before.XMetres) <= _reach.AlongMetres).Distinct())
            {
                int[] there = [.. band.Where(one => _middles[one].XMetres >= x - 0.001 && _middles[one].XMetres <= x + _reach.AlongMetres + 0.001)];
                double value = Worth(there);
                if (value <= worth || !needed.IsSubsetOf(there.SelectMany(one => _brings[one])) || neededSetUps.Except(there).Any()) continue;
                (best, worth) = (new SiteCoordinate(x, y), value);
            }
        }

        _lows[anchor] = best;
        Count(near.Where(one => Inside(anchor, one)), 1);
        return best != before;
    }

    // A set-up of the wanted ones counts most; any other that builds more than one pile is a way to make up for one that is cut.
    private double Worth(int[] setUps)
    {
        double worth = 0;
        foreach (int one in setUps)
        {
            if (_heldSetUps[one] == 0) worth += (_wanted[one] ? 1 : 0.02) * (_brings[one].Count - 0.9);
        }

        return worth;
    }

    private IEnumerable<int> Near(int anchor)
    {
        SiteCoordinate low = _lows[anchor];
        return Enumerable.Range(0, _middles.Length).Where(one =>
            Math.Abs(_middles[one].XMetres - low.XMetres) <= (2 * _reach.AlongMetres) + 0.01 && Math.Abs(_middles[one].YMetres - low.YMetres) <= (2 * _reach.AcrossMetres) + 0.01);
    }

    private bool Inside(int anchor, int setUp) => AnchorChoice.Inside(_lows[anchor], _reach, _middles[setUp]);

    private void Count(IEnumerable<int> setUps, int by)
    {
        foreach (int one in setUps)
        {
            _heldSetUps[one] += by;
            foreach (int pile in _brings[one]) _heldPiles[pile] += by;
        }
    }
}
