using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Matching;

/// <summary>
/// Settles which planned pile each installation is, by its number and its position together. A match is adopted without a
/// person only when the two agree: the position lies within half a spacing of the pile that the number names.
/// </summary>
public static class NumberAndPosition
{
    /// <summary>Settles all installations of a site.</summary>
    /// <param name="installations">Installations, any order.</param>
    /// <param name="design">Design in force.</param>
    /// <returns>One match for each installation, in the order given.</returns>
    public static IReadOnlyList<InstallationMatch> Settle(
        IReadOnlyList<LocatedInstallation> installations, DesignIndex design)
    {
        ArgumentNullException.ThrowIfNull(installations);
        ArgumentNullException.ThrowIfNull(design);
        Dictionary<long, InstallationMatch> repeats = RepeatedRecords.Find(installations);
        InstallationMatch[] matches = new InstallationMatch[installations.Count];
        for (int index = 0; index < matches.Length; index++)
        {
            matches[index] = repeats.GetValueOrDefault(installations[index].Sequence) ?? Settle(installations[index], design);
        }

        return matches;
    }

    private static InstallationMatch Settle(LocatedInstallation installation, DesignIndex design)
    {
        PlannedPile? named = design.Find(installation.Recorded.PileNumber);
        if (installation.Position is not { } position)
        {
            return new InstallationMatch(Trial(installation, named) ?? MatchOutcome.NoPosition, null, null, null, null, null);
        }

        double? toNamed = named is null ? null : DesignIndex.DistanceMetres(named.Position, position);
        (PlannedPile Pile, double DistanceMetres)? nearest = design.NearestWithinReach(position);
        InstallationMatch Found(MatchOutcome outcome, PlannedPile? adopted)
            => new(outcome, adopted?.Number, nearest?.Pile.Number, toNamed, nearest?.DistanceMetres, null);

        if (Trial(installation, named) is { } trial) return Found(trial, null);
        if (named is not null && toNamed <= design.ReachMetres(named)) return Found(MatchOutcome.Matched, named);
        if (named is not null && installation.Recorded.Outcome == Outcome.OffsetByInstruction
            && toNamed <= 2 * design.ReachMetres(named))
        {
            return Found(MatchOutcome.OffsetByInstruction, named);
        }

        return Found(
            nearest is null ? MatchOutcome.NothingPlannedWithinReach
            : named is null ? MatchOutcome.UnknownNumber
            : MatchOutcome.NumberContradictsPosition,
            null);
    }

    private static MatchOutcome? Trial(LocatedInstallation installation, PlannedPile? named)
        => installation.Recorded.Outcome == Outcome.Trial && named is null ? MatchOutcome.Trial : null;
}
