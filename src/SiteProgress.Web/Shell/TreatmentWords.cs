using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Core.Treatment;

namespace SiteProgress.Web.Shell;

/// <summary>Words of the treatment of piles, as pages write them.</summary>
public static class TreatmentWords
{
    /// <summary>Every disposition.</summary>
    public static IReadOnlyList<Disposition> Dispositions { get; } = Enum.GetValues<Disposition>();

    /// <summary>Every kind of hold point.</summary>
    public static IReadOnlyList<HoldPointKind> HoldPointKinds { get; } = Enum.GetValues<HoldPointKind>();

    /// <summary>A disposition.</summary>
    public static string Of(Disposition disposition) => disposition switch
    {
        Disposition.UseAsIs => "use as is (concession)",
        Disposition.RepairInPlace => "repair in place",
        Disposition.InstallAgain => "install again",
        Disposition.AdditionalPile => "additional pile",
        _ => throw new ArgumentOutOfRangeException(nameof(disposition), disposition, "unknown disposition"),
    };

    /// <summary>How far a non-conformance is, and what it waits for.</summary>
    public static string Of(Stage stage) => stage switch
    {
        Stage.Raised => "raised, waits for a proposal",
        Stage.Proposed => "proposed, waits for a decision",
        Stage.Returned => "sent back, waits for a proposal",
        Stage.Approved => "approved, waits for the work",
        Stage.ToVerify => "waits for verification",
        Stage.Reopened => "re-opened, waits for a proposal",
        Stage.Closed => "closed",
        _ => throw new ArgumentOutOfRangeException(nameof(stage), stage, "unknown stage"),
    };

    /// <summary>How far a lot is.</summary>
    public static string Of(LotStage stage) => stage switch
    {
        LotStage.Submitted => "submitted, waits for a decision",
        LotStage.Accepted => "accepted",
        LotStage.Returned => "sent back",
        _ => throw new ArgumentOutOfRangeException(nameof(stage), stage, "unknown stage"),
    };

    /// <summary>A kind of hold point.</summary>
    public static string Of(HoldPointKind kind) => kind switch
    {
        HoldPointKind.TrialPiles => "trial piles",
        HoldPointKind.FirstPiles => "first piles of a zone",
        HoldPointKind.BeforeAnchorsLift => "before the anchors lift",
        HoldPointKind.OfTheSite => "set by the site",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "unknown kind"),
    };

    /// <summary>What somebody did.</summary>
    public static string Of(TreatmentStep step)
    {
        ArgumentNullException.ThrowIfNull(step);
        return step.Kind switch
        {
            RecordKind.NonConformanceRaised => "raised it",
            RecordKind.DispositionProposed => "proposed",
            RecordKind.DispositionDecided => step.Yes == true ? "approved" : "sent the proposal back",
            RecordKind.CommentMade => "commented",
            RecordKind.DueDateSet => "set the due date",
            RecordKind.EvidenceGiven => "gave evidence",
            RecordKind.ClosureDecided => step.Yes == true ? "verified the closure" : "sent the evidence back",
            RecordKind.LotSubmitted => "submitted it",
            RecordKind.LotReturned => "sent it back",
            RecordKind.PilesAccepted => "accepted",
            RecordKind.HoldPointSet => "set it",
            RecordKind.HoldPointSigned => step.Yes == true ? "signed as surveyor" : "signed for the owner",
            RecordKind.HoldPointWithdrawn => "withdrew it",
            _ => "recorded something",
        };
    }
}
