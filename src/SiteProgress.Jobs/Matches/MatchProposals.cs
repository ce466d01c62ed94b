using SiteProgress.Core.Derivation;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Jobs.Matches;

/// <summary>What a person may choose for a record whose match waits.</summary>
public enum MatchAnswer
{
    /// <summary>The planned pile its position lies at.</summary>
    ByPosition = 1,

    /// <summary>The planned pile its number names, its position as recorded.</summary>
    ByNumber = 2,

    /// <summary>The planned pile its number names, its coordinates read as the evidence says.</summary>
    ByNumberReadAnew = 3,

    /// <summary>Another planned pile, named by the person.</summary>
    Another = 4,

    /// <summary>None: it stands for no pile.</summary>
    SetAside = 5,
}

/// <summary>What can be chosen for a waiting record, and what the evidence speaks for.</summary>
public static class MatchProposals
{
    /// <summary>What can be chosen, with the pile each means.</summary>
    public static IReadOnlyList<(MatchAnswer Answer, string? Pile)> Of(DerivedInstallation installation, Func<string, string?> planned)
    {
        ArgumentNullException.ThrowIfNull(installation);
        ArgumentNullException.ThrowIfNull(planned);
        InstallationMatch match = installation.Match;
        string? named = planned(installation.Located.Recorded.PileNumber);
        List<(MatchAnswer, string?)> answers = [];
        if (ReadingOf(match.Outcome) is not null && named is not null) answers.Add((MatchAnswer.ByNumberReadAnew, named));
        if (match.Nearest is { } nearest && nearest != named) answers.Add((MatchAnswer.ByPosition, nearest));
        if (named is not null) answers.Add((MatchAnswer.ByNumber, named));
        answers.Add((MatchAnswer.Another, null));
        answers.Add((MatchAnswer.SetAside, null));
        return answers;
    }

    /// <summary>What the evidence speaks for; null where a person has to say.</summary>
    public static MatchAnswer? Proposed(MatchOutcome outcome) => outcome switch
    {
        MatchOutcome.SwappedNumbers or MatchOutcome.ShiftedAlongRow or MatchOutcome.NumberContradictsPosition or MatchOutcome.UnknownNumber => MatchAnswer.ByPosition,
        MatchOutcome.AxesExchanged or MatchOutcome.WrongFrame => MatchAnswer.ByNumberReadAnew,
        _ => null,
    };

    /// <summary>How coordinates are read that the evidence says were written otherwise; null where it does not say so.</summary>
    public static PositionReading? ReadingOf(MatchOutcome outcome) => outcome switch
    {
        MatchOutcome.AxesExchanged => PositionReading.AxesExchanged,
        MatchOutcome.WrongFrame => PositionReading.ProjectedCrs,
        _ => null,
    };

    /// <summary>The choice as it is recorded, or why it cannot be.</summary>
    internal static (MatchChoice? Choice, string? Refusal) Choose(DerivedInstallation installation, AskedMatch asked, Func<string, string?> planned)
    {
        string record = FormattableString.Invariant($"Record {asked.Installation} ({installation.Located.Recorded.PileNumber})");
        if (asked.Answer == MatchAnswer.SetAside) return (new MatchChoice(asked.Installation, null), null);
        if (asked.Answer == MatchAnswer.Another)
        {
            return string.IsNullOrWhiteSpace(asked.Pile) ? (null, $"{record}: expected the number of the planned pile it is taken for.")
                : planned(asked.Pile.Trim()) is { } other ? (new MatchChoice(asked.Installation, other), null)
                : (null, $"{record}: there is no pile {asked.Pile.Trim()} in the design.");
        }

        (MatchAnswer Answer, string? Pile) found = Of(installation, planned).FirstOrDefault(one => one.Answer == asked.Answer);
        if (found.Pile is null) return (null, $"{record}: the evidence no longer speaks for this choice; look at it once more.");
        return (new MatchChoice(asked.Installation, found.Pile, asked.Answer == MatchAnswer.ByNumberReadAnew ? ReadingOf(installation.Match.Outcome) : null), null);
    }
}

/// <summary>What a person chose for one record.</summary>
/// <param name="Installation">Sequence of the record.</param>
/// <param name="Answer">What was chosen.</param>
/// <param name="Pile">Number of the pile, for <see cref="MatchAnswer.Another"/> alone.</param>
public sealed record AskedMatch(long Installation, MatchAnswer Answer, string? Pile = null);
