using SiteProgress.Core.Logs;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Checks;

/// <summary>The log of one part that a pile stands on.</summary>
/// <param name="Part">The part.</param>
/// <param name="Figures">What its log tells; null where no log of the installation is recorded.</param>
public sealed record PartLog(StandingPart Part, LogFigures? Figures);

/// <summary>Reads the log of a part against the design of its pile.</summary>
/// <param name="pile">The planned pile.</param>
/// <param name="part">The part.</param>
/// <param name="cutOffLevelMetres">Level up to which the part is judged, metres.</param>
/// <returns>What the log tells; null where no log of the installation is recorded.</returns>
public delegate LogFigures? PartLogReader(PlannedPile pile, StandingPart part, double cutOffLevelMetres);

/// <summary>The logs of all parts that a pile stands on, lowest part first.</summary>
internal static class PartLogs
{
    /// <summary>What every pile without a log says; the sheets of accepted piles hold these words.</summary>
    private const string NoLog = "There is no log of the sand along the pile.";

    /// <summary>The upper part is judged up to the design top, a lower one up to where the next begins.</summary>
    public static IReadOnlyList<PartLog> Of(PlannedPile pile, IReadOnlyList<StandingPart> standing, JudgingContract contract)
        => [.. standing.Select((part, place) => new PartLog(
            part, contract.ReadLog?.Invoke(pile, part, place == standing.Count - 1 ? pile.TopLevelMetres : part.ToLevelMetres ?? pile.TopLevelMetres)))];

    /// <summary>Why the logs do not tell of the whole pile; null when they do.</summary>
    public static string? WhyNot(IReadOnlyList<PartLog> logs)
    {
        if (logs.All(log => log.Figures is null)) return NoLog;
        return logs.Select(log => log.Figures switch
        {
            null => FormattableString.Invariant($"There is no log of the installation of record {log.Part.Installation.Sequence}, on which a part of the pile stands."),
            { Why: { } why } => FormattableString.Invariant($"The log of record {log.Part.Installation.Log?.Sequence} does not tell it: {why}"),
            _ => null,
        }).FirstOrDefault(why => why is not null);
    }

    /// <summary>The record of the log of a part, as a sentence names it.</summary>
    public static string Name(PartLog log) => FormattableString.Invariant($"log of record {log.Part.Installation.Log?.Sequence}");
}
