using SiteProgress.Core.Coordinates;
using SiteProgress.Core.SetUps;

namespace SiteProgress.Planning;

/// <summary>
/// Every laying of the anchors worth considering. A reach is laid so that its lower corner meets the middle of the casings of some
/// set-up in each axis: any other can be moved up to such a one and holds no less.
/// </summary>
internal sealed class AnchorWindows
{
    private const double Margin = 0.001; // Corners are worked out from points; a millimetre more.

    private readonly List<SiteCoordinate> _lows = [];
    private readonly List<IReadOnlyList<int>> _sets = [];

    private AnchorWindows()
    {
    }

    /// <summary>Lower corners.</summary>
    public IReadOnlyList<SiteCoordinate> Lows => _lows;

    /// <summary>What each holds.</summary>
    public IReadOnlyList<IReadOnlyList<int>> Sets => _sets;

    /// <summary>The reaches, each thing held once by no two with the same content.</summary>
    /// <param name="middles">Middle of the casings of each set-up.</param>
    /// <param name="brings">What each set-up brings to a reach that holds it, as numbers from 0.</param>
    /// <param name="reach">The reach.</param>
    public static AnchorWindows Of(SiteCoordinate[] middles, IReadOnlyList<int>[] brings, AnchorReach reach)
    {
        AnchorWindows windows = new();
        int[] bringing = [.. Enumerable.Range(0, middles.Length).Where(one => brings[one].Count > 0)];
        int elements = bringing.Length == 0 ? 0 : bringing.Max(one => brings[one].Max()) + 1;
        HashSet<ulong> seen = [];
        int[] byX = [.. bringing.OrderBy(one => middles[one].XMetres)];
        foreach (double low in bringing.Select(one => Math.Round(middles[one].YMetres, 3)).Distinct().Order())
        {
            int[] band = [.. byX.Where(one => middles[one].YMetres >= low - Margin && middles[one].YMetres <= low + reach.AcrossMetres + Margin)];
            windows.Sweep(middles, brings, band, low, reach, new int[elements], seen);
        }

        return windows;
    }

    private void Sweep(SiteCoordinate[] middles, IReadOnlyList<int>[] brings, int[] band, double low, AnchorReach reach, int[] times, HashSet<ulong> seen)
    {
        (int first, int next) = (0, 0);
        ulong content = 0;
        while (first < band.Length)
        {
            double left = Math.Round(middles[band[first]].XMetres, 3);
            bool grew = false;
            for (; next < band.Length && middles[band[next]].XMetres <= left + reach.AlongMetres + Margin; next++)
            {
                foreach (int element in brings[band[next]])
                {
                    if (times[element]++ > 0) continue;
                    content += Mark(element);
                    grew = true;
                }
            }

            // A reach that only lost things lies within the one before it.
            if (grew && seen.Add(content))
            {
                _lows.Add(new SiteCoordinate(left, low));
                _sets.Add([.. band[first..next].SelectMany(one => brings[one]).Distinct().Order()]);
            }

            for (; first < band.Length && middles[band[first]].XMetres <= left + Margin; first++)
            {
                foreach (int element in brings[band[first]])
                {
                    if (--times[element] == 0) content -= Mark(element);
                }
            }
        }
    }

    /// <summary>A number of 64 bits for an element, so that sums of them tell contents apart (splitmix64; Steele, Lea and Flood, 2014).</summary>
    private static ulong Mark(int element)
    {
        ulong z = ((ulong)element + 1) * 0x9E3779B97F4A7C15UL;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
        return z ^ (z >> 31);
    }
}
