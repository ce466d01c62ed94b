using Npgsql;
using NpgsqlTypes;
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
    /// <summary>Judged, every limit of its position kept.</summary>
    Within = 1,

    /// <summary>Judged, a limit of its position not kept.</summary>
    Beyond = 2,

    /// <summary>Built, and not judged: no RTK-fixed position, or built off its place by instruction.</summary>
    NotJudged = 3,

    /// <summary>Judged, its limits kept, and beyond the site's own alert.</summary>
    Alert = 4,
}

/// <summary>A rectangle, both edges included, metres.</summary>
/// <param name="FirstFrom">Least first coordinate.</param>
/// <param name="FirstTo">Largest first coordinate.</param>
/// <param name="SecondFrom">Least second coordinate.</param>
/// <param name="SecondTo">Largest second coordinate.</param>
public readonly record struct Box(double FirstFrom, double FirstTo, double SecondFrom, double SecondTo)
{
    /// <summary>True when a point lies in it.</summary>
    public bool Holds(double first, double second) => first >= FirstFrom && first <= FirstTo && second >= SecondFrom && second <= SecondTo;
}

/// <summary>Built piles chosen for review; what is null is not asked for.</summary>
/// <param name="Zone">Zone.</param>
/// <param name="Barge">Barge that completed the pile.</param>
/// <param name="Casing">Casing that completed it.</param>
/// <param name="From">First working day.</param>
/// <param name="To">Last working day.</param>
/// <param name="Attempt">Which attempt.</param>
/// <param name="Shift">Shift in which it was completed.</param>
/// <param name="Deviating">Deviations (dE, dN) within this frame.</param>
/// <param name="Place">Design positions on the site grid within this frame.</param>
/// <param name="RadialFrom">Least radial deviation, metres.</param>
/// <param name="RadialBelow">Radial deviation below this, metres.</param>
public sealed record DeviationSelection(
    string? Zone = null, string? Barge = null, int? Casing = null, DateOnly? From = null, DateOnly? To = null, AttemptChoice? Attempt = null,
    string? Shift = null, Box? Deviating = null, Box? Place = null, double? RadialFrom = null, double? RadialBelow = null)
{
    /// <summary>Everything built.</summary>
    public static DeviationSelection All { get; } = new();

    /// <summary>First number of the parameters that may follow those of the selection.</summary>
    internal const int NextParameter = 19;

    /// <summary>The condition on <c>derived.pile</c>; its parameters are <see cref="Values"/>, 1 to 18.</summary>
    internal static string Condition =>
        $"""
        site = $1 and state not in ({(int)PileState.Outstanding}, {(int)PileState.BuildAgain}, {(int)PileState.Cancelled})
        and ($2 is null or zone = $2) and ($3 is null or barge = $3) and ($4 is null or casing = $4)
        and ($5 is null or working_day >= $5) and ($6 is null or working_day <= $6)
        and ($7 is null or ($7 = {(int)AttemptChoice.First}) = (attempts <= 1)) and ($8 is null or shift = $8)
        and ($9 is null or (deviation_east between $9 and $10 and deviation_north between $11 and $12))
        and ($13 is null or (design_x between $13 and $14 and design_y between $15 and $16))
        and ($17 is null or deviation_radial >= $17) and ($18 is null or deviation_radial < $18)
        """;

    /// <summary>Values of the condition's parameters.</summary>
    internal NpgsqlParameter[] Values(int site) =>
    [
        Site(site), Text(Zone), Text(Barge), Whole(Casing), Day(From), Day(To), Whole((int?)Attempt), Text(Shift),
        Number(Deviating?.FirstFrom), Number(Deviating?.FirstTo), Number(Deviating?.SecondFrom), Number(Deviating?.SecondTo),
        Number(Place?.FirstFrom), Number(Place?.FirstTo), Number(Place?.SecondFrom), Number(Place?.SecondTo),
        Number(RadialFrom), Number(RadialBelow),
    ];

    /// <summary>The same condition on a pile in memory.</summary>
    internal bool Holds(BuiltPile pile)
        => (Zone is null || pile.Zone == Zone) && (Barge is null || pile.Barge == Barge) && (Casing is null || pile.Casing == Casing)
        && (From is null || pile.WorkingDay >= From) && (To is null || pile.WorkingDay <= To)
        && (Attempt is null || (Attempt == AttemptChoice.First) == (pile.Attempts <= 1)) && (Shift is null || pile.Shift == Shift)
        && (Deviating is not { } frame || (pile.Deviation is { } off && frame.Holds(off.EastMetres, off.NorthMetres)))
        && (Place is not { } place || place.Holds(pile.DesignX, pile.DesignY))
        && (RadialFrom is null || pile.Deviation?.RadialMetres >= RadialFrom) && (RadialBelow is null || pile.Deviation?.RadialMetres < RadialBelow);

    private static NpgsqlParameter Number(double? number) => Value(number, NpgsqlDbType.Double);
}
