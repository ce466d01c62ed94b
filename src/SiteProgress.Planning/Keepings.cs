using NetTopologySuite.Geometries;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.SetUps;

namespace SiteProgress.Planning;

/// <summary>What a plan has to keep: distances to structures, and set-ups a person has fixed.</summary>
internal sealed class Keepings
{
    private readonly BargePlanRequest _request;
    private readonly Polygon[] _structures;

    public Keepings(BargePlanRequest request)
    {
        _request = request;
        _structures = [.. request.Structures.Where(outline => outline.Count >= 3).Select(outline => new Polygon(new LinearRing(
            [.. outline.Append(outline[0]).Select(corner => new Coordinate(corner.XMetres, corner.YMetres))])))];
    }

    /// <summary>True where the hull keeps its distance. Its reference point is taken as the middle of the hull.</summary>
    public bool Allows(double headingDegrees, SiteCoordinate reference)
    {
        if (_structures.Length == 0 || _request.Barge.Hull is not { } hull) return true;
        (double sine, double cosine) = Math.SinCos(headingDegrees * Math.PI / 180);
        Coordinate Corner(double forward, double starboard) => new(
            reference.XMetres + (forward * sine) + (starboard * cosine), reference.YMetres + (forward * cosine) - (starboard * sine));
        (double half, double beam) = (hull.LengthMetres / 2, hull.BeamMetres / 2);
        Coordinate first = Corner(-half, -beam);
        Polygon outline = new(new LinearRing([first, Corner(half, -beam), Corner(half, beam), Corner(-half, beam), first]));
        return Array.TrueForAll(_structures, structure => outline.Distance(structure) >= _request.ClearanceMetres);
    }

    /// <summary>The candidates that are the fixed set-ups; a fixed set-up that no allowed position builds is told.</summary>
    public (IReadOnlyList<int> Chosen, string[] Problems) Pinned(IReadOnlyList<SetUpCandidate> candidates)
    {
        List<int> chosen = [];
        List<string> problems = [];
        foreach (IReadOnlyList<string> together in _request.Pinned)
        {
            HashSet<string> wanted = new(together, StringComparer.OrdinalIgnoreCase);
            int found = Enumerable.Range(0, candidates.Count).FirstOrDefault(
                one => wanted.IsSubsetOf(candidates[one].Builds.Select(over => _request.Piles[over.Pile].Number)), -1);
            if (found < 0) problems.Add($"The fixed set-up {string.Join(", ", together)} is built from no allowed position: its piles are not outstanding, stand at another spacing, or lie too near a structure.");
            else if (!chosen.Contains(found)) chosen.Add(found);
        }

        return (chosen, [.. problems]);
    }
}
