using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Outstanding;

/// <summary>The nearest neighbours a pile has inside the pattern of its zone.</summary>
/// <param name="ReachMetres">Design positions within this distance are neighbours, metres.</param>
/// <param name="FullCount">How many neighbours a pile inside the zone has: 8 in a square or rectangular pattern (10 where one side is so long that the second pile of the row is nearer than the diagonal one), 6 in a triangular one.</param>
internal sealed record DesignRing(double ReachMetres, int FullCount)
{
    // Between the ring and the next one lies at least a quarter of a spacing; this share of tolerance stays well within it.
    private const double Slack = 1.1;

    public static DesignRing Of(Zone zone)
    {
        double first = zone.SpacingMetres;
        if (zone.Pattern == Pattern.Triangular) return new DesignRing(first * Slack, 6);
        double second = zone.SecondSpacingMetres ?? first;
        double reach = Math.Sqrt((first * first) + (second * second)) * Slack;
        return new DesignRing(reach, WithinReach(first, second, reach));
    }

    /// <summary>Counts the places of the pattern within reach: in a long rectangle the second pile of the row is nearer than the diagonal one.</summary>
    private static int WithinReach(double first, double second, double reach)
    {
        int columns = (int)(reach / first);
        int rows = (int)(reach / second);
        int count = -1;
        for (int column = -columns; column <= columns; column++)
        {
            for (int row = -rows; row <= rows; row++)
            {
                if (Math.Sqrt((column * first * column * first) + (row * second * row * second)) <= reach) count++;
            }
        }

        return count;
    }
}
