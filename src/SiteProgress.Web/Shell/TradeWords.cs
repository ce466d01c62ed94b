using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;

namespace SiteProgress.Web.Shell;

/// <summary>Words of the trade as pages write them.</summary>
public static class TradeWords
{
    /// <summary>A check.</summary>
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
        CheckName.SandAgreement => "agreement of the sand",
        CheckName.SandAccount => "sand account",
        _ => throw new ArgumentOutOfRangeException(nameof(check), check, "unknown check"),
    };

    /// <summary>Whose account of which sand it is.</summary>
    public static string Of(SandAccountName account)
    {
        ArgumentNullException.ThrowIfNull(account);
        return $"{(account.Barge.Length > 0 ? account.Barge : "the whole site")}, {account.Source}";
    }

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

    /// <summary>How a record stands to the design.</summary>
    public static string Of(MatchOutcome match) => match switch
    {
        MatchOutcome.Matched => "number and position agree",
        MatchOutcome.OffsetByInstruction => "offset by instruction",
        MatchOutcome.Trial => "trial pile",
        MatchOutcome.NumberContradictsPosition => "number contradicts position",
        MatchOutcome.UnknownNumber => "number not in the design",
        MatchOutcome.NothingPlannedWithinReach => "nothing planned within reach",
        MatchOutcome.NoPosition => "no position on the record",
        MatchOutcome.DuplicateRecord => "repeats an earlier record",
        MatchOutcome.IdentifierReused => "identifier used before, with other content",
        MatchOutcome.SwappedNumbers => "numbers swapped with another record",
        MatchOutcome.ShiftedAlongRow => "numbers shifted along the row",
        MatchOutcome.BatchShifted => "whole batch shifted",
        MatchOutcome.AxesExchanged => "coordinates exchanged",
        MatchOutcome.WrongFrame => "position written in another frame",
        MatchOutcome.ClaimedTwice => "pile claimed by another record",
        _ => throw new ArgumentOutOfRangeException(nameof(match), match, "unknown outcome"),
    };
}
