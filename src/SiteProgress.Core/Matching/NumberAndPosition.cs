using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Matching;

/// <summary>
/// Settles which planned pile each installation is, by its number and its position together. A match is adopted without a
/// person only when the two agree: the position lies within half a spacing of the pile that the number names. What disagrees is
/// solved together (<see cref="PlacesByAssignment"/>) and given the name of what it is (<see cref="NamedPatterns"/>).
/// </summary>
public static class NumberAndPosition
{
    /// <summary>Settles all installations of a site.</summary>
    /// <param name="installations">Installations, any order.</param>
    /// <param name="design">Design in force.</param>
    /// <param name="inOtherFrame">The site-grid position of a record whose coordinates are read in another frame than was said; null where there is none.</param>
    /// <returns>One match for each installation, in the order given.</returns>
    public static IReadOnlyList<InstallationMatch> Settle(
        IReadOnlyList<LocatedInstallation> installations, DesignIndex design, Func<LocatedInstallation, SiteCoordinate?>? inOtherFrame = null)
    {
        ArgumentNullException.ThrowIfNull(installations);
        ArgumentNullException.ThrowIfNull(design);
        Dictionary<long, InstallationMatch> repeats = RepeatedRecords.Find(installations);
        InstallationMatch[] matches = new InstallationMatch[installations.Count];
        for (int index = 0; index < matches.Length; index++)
        {
            matches[index] = repeats.GetValueOrDefault(installations[index].Sequence) ?? Settle(installations[index], design);
        }

        PutInPlace(installations, matches, design);
        Name(installations, matches, design, inOtherFrame);
        return matches;
    }

    /// <summary>What disagrees, to the piles that the assignment gives.</summary>
    private static void PutInPlace(IReadOnlyList<LocatedInstallation> installations, InstallationMatch[] matches, DesignIndex design)
    {
        int[] disagree = Enumerable.Range(0, matches.Length)
            .Where(index => matches[index].Outcome is MatchOutcome.NumberContradictsPosition or MatchOutcome.UnknownNumber).ToArray();
        if (disagree.Length == 0) return;
        HashSet<string> held = matches.Select(match => match.Adopted).OfType<string>().ToHashSet();
        Dictionary<long, PlannedPile> places = PlacesByAssignment.Solve(
            disagree.Select(index => installations[index]), design, held);
        foreach (int index in disagree)
        {
            matches[index] = places.TryGetValue(installations[index].Sequence, out PlannedPile? pile)
                ? matches[index] with { Nearest = pile.Number, DistanceToNearestMetres = DesignIndex.DistanceMetres(pile.Position, installations[index].Position!.Value) }
                : matches[index] with { Outcome = MatchOutcome.ClaimedTwice };
        }
    }

    /// <summary>What disagrees, by the name of what it is where the evidence is there.</summary>
    private static void Name(
        IReadOnlyList<LocatedInstallation> installations, InstallationMatch[] matches, DesignIndex design, Func<LocatedInstallation, SiteCoordinate?>? inOtherFrame)
    {
        if (!matches.Any(match => match.Outcome is MatchOutcome.NumberContradictsPosition or MatchOutcome.NothingPlannedWithinReach)) return;
        List<NamedPatterns.Case> cases = [];
        for (int index = 0; index < matches.Length; index++)
        {
            if (installations[index].Position is not { } at || matches[index].Outcome is MatchOutcome.DuplicateRecord or MatchOutcome.IdentifierReused
                || design.Find(installations[index].Recorded.PileNumber, installations[index].BuiltAt) is not { } named) continue;
            if (matches[index].Outcome == MatchOutcome.NothingPlannedWithinReach && ReadOtherwise(installations[index], named, design, inOtherFrame) is { } otherwise)
                matches[index] = matches[index] with { Outcome = otherwise };
            else cases.Add(new NamedPatterns.Case(installations[index], named, at, matches[index], design.ReachMetres(named)));
        }

        Dictionary<long, MatchOutcome> names = NamedPatterns.Find(cases);
        for (int index = 0; index < matches.Length; index++)
        {
            if (matches[index].Adopted is null && names.TryGetValue(installations[index].Sequence, out MatchOutcome name)) matches[index] = matches[index] with { Outcome = name };
        }
    }

    private static MatchOutcome? ReadOtherwise(
        LocatedInstallation installation, PlannedPile named, DesignIndex design, Func<LocatedInstallation, SiteCoordinate?>? inOtherFrame)
    {
        bool AtNamed(SiteCoordinate at) => DesignIndex.DistanceMetres(named.Position, at) <= design.ReachMetres(named);
        SiteCoordinate position = installation.Position!.Value;
        if (AtNamed(new SiteCoordinate(position.YMetres, position.XMetres))) return MatchOutcome.AxesExchanged;
        return inOtherFrame?.Invoke(installation) is { } other && AtNamed(other) ? MatchOutcome.WrongFrame : null;
    }

    private static InstallationMatch Settle(LocatedInstallation installation, DesignIndex design)
    {
        PlannedPile? named = design.Find(installation.Recorded.PileNumber, installation.BuiltAt);
        if (installation.Position is not { } position)
        {
            return new InstallationMatch(Trial(installation, named) ?? MatchOutcome.NoPosition, null, null, null, null, null);
        }

        double? toNamed = named is null ? null : DesignIndex.DistanceMetres(named.Position, position);
        (PlannedPile Pile, double DistanceMetres)? nearest = design.NearestWithinReach(position, installation.BuiltAt);
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
