using System.Globalization;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Jobs.History;

/// <summary>What a decision on matches says, in a sentence.</summary>
internal static class MatchHistoryWords
{
    private const int MostNamed = 6;

    /// <summary>The sentence, the reason and what it touches; null for a record of another kind.</summary>
    public static (string What, string? Why, HistoryTarget? Touches)? Of(RecordBody body) => body switch
    {
        MatchesDecidedBody one => (
            Say($"Decided which pile {one.Choices.Count} {(one.Choices.Count == 1 ? "installation is" : "installations are")}: {string.Join("; ", one.Choices.Take(MostNamed).Select(Words))}{(one.Choices.Count > MostNamed ? Say($"; and {one.Choices.Count - MostNamed} more") : "")}."),
            one.Reason, new(HistoryPageName.Matches, "")),
        MatchDecisionWithdrawnBody one => (Say($"The decision on matches of record {one.Decision} was withdrawn."), one.Reason, new(HistoryPageName.Matches, "")),
        _ => null,
    };

    private static string Words(MatchChoice choice) => Say(
        $"record {choice.Installation} {(choice.Pile is { } pile ? "is " + pile : "is set aside")}{choice.Reading switch { PositionReading.AxesExchanged => ", coordinates exchanged", PositionReading.ProjectedCrs => ", read in the projected CRS", _ => "" }}");

    private static string Say(FormattableString sentence) => sentence.ToString(CultureInfo.InvariantCulture);
}
