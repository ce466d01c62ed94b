using SiteProgress.Core.Checks;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;

namespace SiteProgress.Web.Piles;

/// <summary>Words that only the pages of piles use; those of every page are <see cref="Shell.TradeWords"/>.</summary>
internal static class PileWords
{
    /// <summary>How an installation stands to the design.</summary>
    public static string Of(MatchOutcome match) => match switch
    {
        MatchOutcome.Matched => "number and position agree",
        MatchOutcome.OffsetByInstruction => "offset by instruction",
        MatchOutcome.Trial => "trial pile",
        MatchOutcome.NumberContradictsPosition => "number contradicts position",
        MatchOutcome.UnknownNumber => "number not in the design",
        MatchOutcome.NothingPlannedWithinReach => "nothing planned within reach",
        MatchOutcome.NoPosition => "no position on record",
        MatchOutcome.DuplicateRecord => "repeats an earlier record",
        MatchOutcome.IdentifierReused => "record identifier used before",
        _ => throw new ArgumentOutOfRangeException(nameof(match), match, "unknown match"),
    };

    /// <summary>The kind of fix.</summary>
    public static string Of(FixType fix) => fix switch
    {
        FixType.RtkFixed => "RTK fixed",
        FixType.RtkFloat => "RTK float",
        FixType.Differential => "differential",
        FixType.Autonomous => "single",
        _ => throw new ArgumentOutOfRangeException(nameof(fix), fix, "unknown fix"),
    };

    /// <summary>The north of a heading.</summary>
    public static string Of(North north) => north switch
    {
        North.TrueNorth => "true north",
        North.CrsGrid => "CRS grid north",
        North.SiteGrid => "site grid",
        _ => throw new ArgumentOutOfRangeException(nameof(north), north, "unknown north"),
    };

    /// <summary>The moment of a position.</summary>
    public static string Of(PositionMoment moment) => moment == PositionMoment.TouchDown ? "touch-down" : "end of penetration";
}
