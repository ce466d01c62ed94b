using Npgsql;
using SiteProgress.Core.Piles;
using static SiteProgress.Jobs.Sites.RowReading;

namespace SiteProgress.Jobs.Deviations;

/// <summary>Which attempt a pile stands on.</summary>
public enum AttemptChoice
{
    /// <summary>The only attempt.</summary>
    First = 1,

    /// <summary>After at least one earlier attempt.</summary>
    Later = 2,
}

/// <summary>How a pile's position stands to its limit.</summary>
public enum PositionChoice
{
    /// <summary>Judged, radial deviation at most the limit.</summary>
    Within = 1,

    /// <summary>Judged, radial deviation above the limit.</summary>
    Beyond = 2,

    /// <summary>Built, and not judged: no RTK-fixed position, or built off its place by instruction.</summary>
    NotJudged = 3,
}

/// <summary>Built piles chosen for review; what is null is not asked for.</summary>
/// <param name="Zone">Zone.</param>
/// <param name="Barge">Barge that completed the pile.</param>
/// <param name="Casing">Casing that completed it.</param>
/// <param name="From">First working day.</param>
/// <param name="To">Last working day.</param>
/// <param name="Attempt">Which attempt.</param>
public sealed record DeviationSelection(
    string? Zone = null, string? Barge = null, int? Casing = null, DateOnly? From = null, DateOnly? To = null, AttemptChoice? Attempt = null)
{
    /// <summary>Everything built.</summary>
    public static DeviationSelection All { get; } = new();

    /// <summary>The condition on <c>derived.pile</c>; its parameters are <see cref="Values"/>, 1 to 7.</summary>
    internal static string Condition =>
        $"""
        site = $1 and state not in ({(int)PileState.Outstanding}, {(int)PileState.BuildAgain}, {(int)PileState.Cancelled})
        and ($2 is null or zone = $2) and ($3 is null or barge = $3) and ($4 is null or casing = $4)
        and ($5 is null or working_day >= $5) and ($6 is null or working_day <= $6)
        and ($7 is null or ($7 = {(int)AttemptChoice.First}) = (attempts <= 1))
        """;

    /// <summary>Values of the condition's parameters.</summary>
    internal NpgsqlParameter[] Values(int site)
        => [Site(site), Text(Zone), Text(Barge), Whole(Casing), Day(From), Day(To), Whole((int?)Attempt)];
}
