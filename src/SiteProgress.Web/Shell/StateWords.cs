using SiteProgress.Core.Piles;

namespace SiteProgress.Web.Shell;

/// <summary>The states of a pile in words, in the order of legends and filters.</summary>
public static class StateWords
{
    /// <summary>Every state.</summary>
    public static IReadOnlyList<PileState> All { get; } = Enum.GetValues<PileState>();

    /// <summary>The word of look and legend.</summary>
    public static string Of(PileState state) => state switch
    {
        PileState.Outstanding => "outstanding",
        PileState.IncompleteRecord => "incomplete record",
        PileState.Installed => "installed",
        PileState.Finding => "finding",
        PileState.NonConformance => "non-conformance",
        PileState.Accepted => "accepted",
        PileState.AcceptedWithConcession => "accepted, concession",
        PileState.BuildAgain => "build again",
        PileState.Cancelled => "cancelled",
        _ => throw new ArgumentOutOfRangeException(nameof(state), state, "unknown state"),
    };

    /// <summary>The word as it stands in addresses, such as <c>build-again</c>.</summary>
    public static string InAddress(PileState state) => Of(state).Replace(",", "", StringComparison.Ordinal).Replace(' ', '-');

    /// <summary>The state of an address word; null when there is none.</summary>
    public static PileState? FromAddress(string? word) => All.Where(state => InAddress(state) == word).Cast<PileState?>().FirstOrDefault();
}
