using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Matching;

/// <summary>
/// Gives contradictions the name of what they are, where the evidence is in the records themselves. Nothing is adopted by it: a
/// person decides. Two records are off by the same vector where each axis differs by no more than half the reach of the pile named,
/// a quarter of its spacing: a fixed length would join unlike steps in a close pattern and part like ones in a wide pattern.
/// Thresholds are common practice, no source.
/// </summary>
internal static class NamedPatterns
{
    private const int LeastInShift = 3, LeastInBatch = 5;
    private const double ShareOfBatch = 0.8, SameVectorShareOfReach = 0.5;

    /// <summary>A record with a known number and a place, and how it stands so far.</summary>
    /// <param name="Record">The record.</param>
    /// <param name="Named">The planned pile its number names.</param>
    /// <param name="At">Where it lies, site grid, metres.</param>
    /// <param name="Match">How it stands so far.</param>
    /// <param name="ReachMetres">Reach of the pile named, metres.</param>
    internal sealed record Case(LocatedInstallation Record, PlannedPile Named, SiteCoordinate At, InstallationMatch Match, double ReachMetres)
    {
        public bool Contradicts => Match.Outcome is MatchOutcome.NumberContradictsPosition or MatchOutcome.NothingPlannedWithinReach;

        public double OffX => At.XMetres - Named.Position.XMetres;

        public double OffY => At.YMetres - Named.Position.YMetres;

        /// <summary>True where it lies off the pile it names by this vector, in metres, as nearly as the spacing lets vectors be told apart.</summary>
        public bool OffBy(double x, double y) => Math.Abs(OffX - x) <= SameVectorShareOfReach * ReachMetres
            && Math.Abs(OffY - y) <= SameVectorShareOfReach * ReachMetres;
    }

    /// <summary>Names found, by the sequence of the record; the first that holds: swap, shift of a batch, shift along the row.</summary>
    public static Dictionary<long, MatchOutcome> Find(IReadOnlyList<Case> cases)
    {
        Dictionary<long, MatchOutcome> names = [];
        Case[] elsewhere = cases.Where(one => one.Match is { Outcome: MatchOutcome.NumberContradictsPosition, Nearest: not null }).ToArray();
        foreach (Case one in Swapped(elsewhere)) names[one.Record.Sequence] = MatchOutcome.SwappedNumbers;
        foreach (Case one in ShiftedBatches(cases)) names.TryAdd(one.Record.Sequence, MatchOutcome.BatchShifted);
        foreach (Case one in ShiftedRows(elsewhere)) names.TryAdd(one.Record.Sequence, MatchOutcome.ShiftedAlongRow);
        return names;
    }

    /// <summary>Two records that each lie at the pile the other one names.</summary>
    private static IEnumerable<Case> Swapped(Case[] elsewhere)
    {
        HashSet<(string Named, string At)> said = elsewhere.Select(one => (one.Named.Number, one.Match.Nearest!)).ToHashSet();
        return elsewhere.Where(one => said.Contains((one.Match.Nearest!, one.Named.Number)));
    }

    /// <summary>At least four fifths of a batch lie off the piles they name by one and the same vector.</summary>
    private static IEnumerable<Case> ShiftedBatches(IReadOnlyList<Case> cases) => cases.GroupBy(one => one.Record.Batch).SelectMany(batch =>
    {
        Case[] all = batch.ToArray();
        Case[] off = all.Where(one => one.Contradicts).ToArray();
        if (off.Length < LeastInBatch || off.Length < ShareOfBatch * all.Length) return [];
        (double x, double y) = (Middle(off.Select(one => one.OffX)), Middle(off.Select(one => one.OffY)));
        Case[] alike = off.Where(one => one.OffBy(x, y)).ToArray();
        return alike.Length >= ShareOfBatch * all.Length ? alike : [];
    });

    /// <summary>Records of one barge, each at the pile the next one names, all by the same step.</summary>
    private static IEnumerable<Case> ShiftedRows(Case[] elsewhere) => elsewhere
        .GroupBy(one => (one.Record.Batch, Barge: one.Record.Recorded.Barge.ToUpperInvariant()))
        .SelectMany(barge => barge.SelectMany(one => Chain(one, barge.ToArray())).Distinct());

    private static Case[] Chain(Case first, Case[] barge)
    {
        Dictionary<string, Case> byNamed = barge
            .Where(one => one.OffBy(first.OffX, first.OffY))
            .GroupBy(one => one.Named.Number).ToDictionary(group => group.Key, group => group.First());
        List<Case> chain = [];
        for (Case? next = first; next is not null && chain.Count < barge.Length; next = byNamed.GetValueOrDefault(next.Match.Nearest!)) chain.Add(next);
        return chain.Count >= LeastInShift ? chain.ToArray() : [];
    }

    private static double Middle(IEnumerable<double> values)
    {
        double[] sorted = values.Order().ToArray();
        return sorted[sorted.Length / 2];
    }
}
