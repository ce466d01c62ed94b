using System.Data.Common;

namespace SiteProgress.Jobs.Operation;

/// <summary>Tells a failure of the store from a mistake of the program.</summary>
public static class StoreFailure
{
    // SQLSTATE, appendix A of the PostgreSQL manual: character_not_in_repertoire and untranslatable_character.
    private static readonly string[] OddText = ["22021", "22P05"];

    // Classes: connection exception, rolled back, insufficient resources, operator intervention, system error.
    private static readonly string[] AwayClasses = ["08", "40", "53", "57", "58"];

    /// <summary>
    /// The store's own failure, also where the mapping library has put one of its own around it, as it does with those
    /// that may pass; null for any other exception.
    /// </summary>
    public static DbException? Of(Exception failure)
        => failure as DbException ?? failure.InnerException as DbException;

    /// <summary>True when the store refused a text that no text of the store can be: one with the character zero in it.</summary>
    public static bool IsOddText(DbException failure) => failure.SqlState is { } state && OddText.Contains(state);

    /// <summary>True when the store is away, full or busy, and the same may succeed later; false for what was wrong to ask.</summary>
    public static bool IsAway(DbException failure)
        => failure.SqlState is not { Length: 5 } state || failure.IsTransient || AwayClasses.Contains(state[..2]);

    /// <summary>What a person or a program is told.</summary>
    public static string Sentence(DbException failure) => failure switch
    {
        _ when IsOddText(failure) => "A text holds the character zero (NUL), which no record can hold. Take it out and try again.",
        { SqlState: "53100" } => "The disk of the store is full. Nothing was recorded. Tell the operator of this server.",
        _ => "The store did not answer. Try again in a moment.",
    };
}
