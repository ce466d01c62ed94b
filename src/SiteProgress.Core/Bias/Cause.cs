namespace SiteProgress.Core.Bias;

/// <summary>A single cause that can move what is recorded, or what is built.</summary>
public enum CauseKind
{
    /// <summary>The whole grid is shifted: every barge alike, whatever its heading.</summary>
    GridShift = 1,

    /// <summary>The grid is turned (and shifted): the farther from the middle the more.</summary>
    GridTurn,

    /// <summary>One barge has an offset in its own axes: an antenna offset, say.</summary>
    BargeOffset,

    /// <summary>Each barge has an offset of its own.</summary>
    OffsetPerBarge,

    /// <summary>One casing of a barge has an offset against its neighbours.</summary>
    CasingOffset,

    /// <summary>The heading of one barge is wrong by an angle.</summary>
    Heading,

    /// <summary>One barge lists, and the list is not taken off the antenna's position: to starboard or port only.</summary>
    List,
}

/// <summary>What moves piles by a cause: two components in the frame the kind has.</summary>
/// <param name="Kind">Kind of the cause.</param>
/// <param name="Barge">Barge; null for a cause of the whole site.</param>
/// <param name="Casing">Casing; null for others.</param>
public sealed record Cause(CauseKind Kind, string? Barge, int? Casing);

/// <summary>One of the numbers a cause is described by.</summary>
/// <param name="Name">What it is: "forward", "starboard", "east", "north", "angle".</param>
/// <param name="Barge">Barge it is for, where a cause has numbers for several.</param>
/// <param name="Value">Recorded minus true, metres; for an angle degrees, clockwise positive.</param>
/// <param name="StandardError">Standard error, same unit; set-ups are what it rests on.</param>
public sealed record CauseValue(string Name, string? Barge, double Value, double StandardError);

/// <summary>How well one cause alone explains what was found.</summary>
/// <param name="Cause">The cause.</param>
/// <param name="Values">Its numbers.</param>
/// <param name="ChanceOfRest">Chance that so much is left over if this cause alone were at work; small: it cannot be alone.</param>
/// <param name="RestMetres">How much it leaves unexplained, metres, root mean square.</param>
/// <param name="Excluded">True when that chance is below 1 % and what is left is at least a third of the least size that is named.</param>
/// <param name="StandardErrorsTogether">Standard errors of the named cause's numbers when this one is allowed beside it; null for a number where the
/// two cannot be told apart at all; none for the named cause itself.</param>
public sealed record CauseFit(
    Cause Cause,
    IReadOnlyList<CauseValue> Values,
    double ChanceOfRest,
    double RestMetres,
    bool Excluded,
    IReadOnlyList<double?>? StandardErrorsTogether)
{
    /// <summary>Below this chance a cause is excluded.</summary>
    public static double ExclusionChance => 0.01;
}
