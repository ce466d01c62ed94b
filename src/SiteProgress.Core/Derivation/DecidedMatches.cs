using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Core.Derivation;

/// <summary>
/// What people decided about which pile an installation is. The record stays as it is: its own number and position are kept, and
/// the decision stands beside them. The latest decision that was not withdrawn holds.
/// </summary>
internal sealed class DecidedMatches
{
    private readonly Dictionary<long, (MatchChoice Choice, long Decision)> byInstallation = [];
    private readonly SiteDesign design;

    public DecidedMatches(SiteHistory history, SiteDesign design)
    {
        this.design = design;
        foreach (MatchDecision decision in history.MatchDecisions.Where(one => one.Withdrawal is null))
        {
            foreach (MatchChoice choice in decision.Body.Choices) byInstallation[choice.Installation] = (choice, decision.Sequence);
        }
    }

    /// <summary>The position of a record as it is to be read.</summary>
    public RecordedPosition? Read(long sequence, RecordedPosition? recorded)
        => recorded is { } at && byInstallation.TryGetValue(sequence, out var decided)
            ? decided.Choice.Reading switch
            {
                PositionReading.AxesExchanged => at with { First = at.Second, Second = at.First },
                PositionReading.ProjectedCrs => at with { Frame = Frame.ProjectedCrs },
                _ => at,
            }
            : recorded;

    /// <summary>The match of an installation with what was decided. A pile that is no longer in the design leaves the record waiting.</summary>
    public InstallationMatch Apply(LocatedInstallation installation, InstallationMatch match, DesignIndex index)
    {
        if (!byInstallation.TryGetValue(installation.Sequence, out var decided)) return match;
        if (decided.Choice.Pile is not { } number) return match with { Adopted = null, Decision = decided.Decision };
        if (index.FindByNumberNow(design.NumberNow(number, decided.Decision), installation.BuiltAt) is not { } pile) return match;
        return match with
        {
            Adopted = pile.Number,
            Decision = decided.Decision,
            Nearest = installation.Position is null ? match.Nearest : pile.Number,
            DistanceToNearestMetres = installation.Position is { } at ? DesignIndex.DistanceMetres(pile.Position, at) : match.DistanceToNearestMetres,
        };
    }
}
