using SiteProgress.Core.Coordinates;
using SiteProgress.Core.SetUps;

namespace SiteProgress.Planning;

/// <summary>The layings of the anchors chosen: few reaches that hold a set-up for every pile, or every set-up of a choice.</summary>
/// <param name="Lows">Lower corners of the chosen reaches.</param>
/// <param name="Bound">No choice that holds as much has fewer layings.</param>
internal sealed record AnchorChoice(IReadOnlyList<SiteCoordinate> Lows, int Bound)
{
    /// <summary>The fewest reaches from which every pile can be built by some set-up, and that hold the fixed set-ups.</summary>
    public static AnchorChoice Fewest(BargePlanRequest request, IReadOnlyList<SetUpCandidate> candidates, IReadOnlyCollection<int> pinned, SolverLimit limit)
    {
        IReadOnlyList<int>[] brings = [.. candidates.Select(one => (IReadOnlyList<int>)[.. one.Builds.Select(over => over.Pile)])];
        int fixedPlace = request.Piles.Count;
        foreach (int one in pinned) brings[one] = [.. brings[one], fixedPlace++];
        return Of(request, candidates, brings, fixedPlace, limit);
    }

    /// <summary>The fewest reaches that hold every set-up of a choice.</summary>
    public static AnchorChoice Holding(BargePlanRequest request, IReadOnlyList<SetUpCandidate> candidates, IReadOnlyList<int> wanted, SolverLimit limit)
    {
        IReadOnlyList<int>[] brings = [.. candidates.Select(_ => (IReadOnlyList<int>)[])];
        for (int place = 0; place < wanted.Count; place++) brings[wanted[place]] = [place];
        return Of(request, candidates, brings, wanted.Count, limit);
    }

    /// <summary>True where a chosen reach holds the middle of a set-up's casings.</summary>
    public bool Holds(AnchorReach reach, SiteCoordinate middle) => Lows.Any(low => Inside(low, reach, middle));

    /// <summary>True where a reach holds a point; a millimetre more, as corners are worked out from points.</summary>
    public static bool Inside(SiteCoordinate low, AnchorReach reach, SiteCoordinate point)
        => point.XMetres >= low.XMetres - 0.001 && point.XMetres <= low.XMetres + reach.AlongMetres + 0.001
            && point.YMetres >= low.YMetres - 0.001 && point.YMetres <= low.YMetres + reach.AcrossMetres + 0.001;

    private static AnchorChoice Of(BargePlanRequest request, IReadOnlyList<SetUpCandidate> candidates, IReadOnlyList<int>[] brings, int elements, SolverLimit limit)
    {
        SiteCoordinate[] middles = [.. candidates.Select(one => BargePlanner.Middle(request, one))];
        AnchorWindows windows = AnchorWindows.Of(middles, brings, request.Reach);
        Cover cover = CoverSolver.Solve(elements, windows.Sets, [], [], limit);
        return new AnchorChoice([.. cover.Chosen.Select(one => windows.Lows[one])], cover.Bound);
    }
}
