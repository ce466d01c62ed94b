using System.Globalization;
using SiteProgress.Core.Matching;

namespace SiteProgress.Web.Shell;

/// <summary>How an installation stands to the design, as a surveyor says it.</summary>
public static class MatchWords
{
    /// <summary>The match as a sentence with its distances.</summary>
    /// <param name="match">The match.</param>
    /// <param name="number">Pile number as recorded.</param>
    public static string Sentence(InstallationMatch match, string number)
    {
        ArgumentNullException.ThrowIfNull(match);
        string toNamed = match.DistanceToNamedMetres is { } metres ? $"{Distance(metres)} from {number}" : $"there is no pile {number} in the design";
        string atNearest = match.Nearest is { } nearest && match.DistanceToNearestMetres is { } near ? $"{Distance(near)} from {nearest}" : "";
        return match.Outcome switch
        {
            MatchOutcome.Matched => match.Adopted + BesidePile(match),
            MatchOutcome.OffsetByInstruction => match.Adopted + BesidePile(match),
            MatchOutcome.Trial => "Trial pile, outside the design.",
            MatchOutcome.NumberContradictsPosition => $"Says {number} but lies {atNearest}, {toNamed}.",
            MatchOutcome.UnknownNumber => $"Lies {atNearest}; {toNamed}.",
            MatchOutcome.SwappedNumbers => $"Says {number} but lies {atNearest}, and the record that says {match.Nearest} lies at {number}: the two numbers are swapped.",
            MatchOutcome.ShiftedAlongRow => $"Says {number} but lies {atNearest}; the records beside it are off by the same step, so the numbers are shifted along the row.",
            MatchOutcome.BatchShifted => $"Lies {toNamed}, like the whole batch by the same vector{(atNearest.Length == 0 ? "" : $"; it lies {atNearest}")}.",
            MatchOutcome.AxesExchanged => $"Lies at {number} once its two coordinates are exchanged.",
            MatchOutcome.WrongFrame => $"Lies at {number} once its coordinates are read in the projected CRS instead of the site grid.",
            MatchOutcome.ClaimedTwice => $"Lies {atNearest}, which another record holds; {toNamed}.",
            MatchOutcome.NothingPlannedWithinReach => $"Nothing is planned within half a spacing; {toNamed}.",
            MatchOutcome.NoPosition => $"No position recorded, so {number} cannot be confirmed.",
            MatchOutcome.DuplicateRecord => Earlier("Says again what record {0} said; kept and not counted.", match.SameAs),
            MatchOutcome.IdentifierReused => Earlier("Carries the identifier of record {0}, with other content.", match.SameAs),
            _ => TradeWords.Of(match.Outcome),
        };
    }

    /// <summary>For an adopted match, what stands beside the number of its pile.</summary>
    public static string BesidePile(InstallationMatch match)
    {
        ArgumentNullException.ThrowIfNull(match);
        return $", {Distance(match.DistanceToNamedMetres ?? 0)} off{(match.Outcome == MatchOutcome.OffsetByInstruction ? " by instruction" : "")}";
    }

    /// <summary>A distance given in metres: below one metre in millimetres.</summary>
    public static string Distance(double metres)
        => metres < 0.9995 ? $"{Show.Millimetres(metres)}\u00A0mm" : $"{Show.Level(metres)}\u00A0m";

    private static string Earlier(string sentence, long? record) => string.Format(CultureInfo.InvariantCulture, sentence, record);
}
