using NodaTime;
using NodaTime.Text;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;

namespace SiteProgress.Web.Piles;

/// <summary>Words of the trade as people read them, and times as the site keeps them.</summary>
internal static class PileWords
{
    private static readonly LocalDateTimePattern ToTheMinute = LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd HH:mm");

    /// <summary>The name of a check.</summary>
    public static string Of(CheckName check) => check switch
    {
        CheckName.Position => "position",
        CheckName.Top => "top level",
        CheckName.Tip => "tip",
        CheckName.Sand => "sand",
        CheckName.LeastDiameter => "least equivalent diameter",
        CheckName.Verticality => "verticality",
        CheckName.Continuity => "continuity",
        CheckName.Times => "times",
        _ => throw new ArgumentOutOfRangeException(nameof(check), check, "unknown check"),
    };

    /// <summary>How an attempt ended.</summary>
    public static string Of(Outcome outcome) => outcome switch
    {
        Outcome.Complete => "complete",
        Outcome.Refused => "refused",
        Outcome.Interrupted => "interrupted",
        Outcome.Abandoned => "abandoned",
        Outcome.OffsetByInstruction => "offset by instruction",
        Outcome.Trial => "trial",
        _ => throw new ArgumentOutOfRangeException(nameof(outcome), outcome, "unknown outcome"),
    };

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

    /// <summary>An instant as site time, to the minute.</summary>
    /// <param name="at">The instant.</param>
    /// <param name="timeZone">IANA time zone of the site.</param>
    public static string SiteTime(Instant at, string timeZone)
        => ToTheMinute.Format(at.InZone(DateTimeZoneProviders.Tzdb.GetZoneOrNull(timeZone) ?? DateTimeZone.Utc).LocalDateTime);
}
