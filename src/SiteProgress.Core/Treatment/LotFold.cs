using SiteProgress.Core.Records;

namespace SiteProgress.Core.Treatment;

/// <summary>Makes a lot of its records.</summary>
internal static class LotFold
{
    public static Lot Make(IReadOnlyList<TreatmentRecord> records)
    {
        LotSubmittedBody submitted = (LotSubmittedBody)records[0].Body;
        TreatmentRecord? decision = records.Count > 1 ? records[^1] : null;
        return new Lot(
            submitted.Number,
            decision?.Body switch
            {
                PilesAcceptedBody => LotStage.Accepted,
                LotReturnedBody => LotStage.Returned,
                _ => LotStage.Submitted,
            },
            submitted.Piles,
            submitted.Note,
            TreatmentSteps.Of(records[0]),
            decision is null ? null : TreatmentSteps.Of(decision),
            decision?.Body is PilesAcceptedBody accepted ? accepted.Piles.Count : 0);
    }
}
