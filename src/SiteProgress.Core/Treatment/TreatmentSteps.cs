using SiteProgress.Core.Records;

namespace SiteProgress.Core.Treatment;

/// <summary>Tells a record of treatment as a step: who, when, and what the person said.</summary>
internal static class TreatmentSteps
{
    public static TreatmentStep Of(TreatmentRecord record)
    {
        (bool? yes, string text, string? reference) = record.Body switch
        {
            NonConformanceRaisedBody body => ((bool?)null, body.Reason, (string?)null),
            DispositionProposedBody body => (null, $"{SheetFigures.Of(body.Disposition)}. {body.Reason}", body.DesignerReference),
            DispositionDecidedBody body => (body.Approved, body.Comment, null),
            CommentMadeBody body => (null, body.Text, null),
            DueDateSetBody body => (null, body.Reason, NodaTime.Text.LocalDatePattern.Iso.Format(body.DueOn)),
            EvidenceGivenBody body => (null, body.Note, body.Reference),
            ClosureDecidedBody body => (body.Verified, body.Comment, null),
            LotSubmittedBody body => (null, body.Note, null),
            LotReturnedBody body => (false, body.Reason, null),
            PilesAcceptedBody body => (true, body.Comment, body.Selection),
            HoldPointSetBody body => (null, body.Name, body.Clause),
            HoldPointSignedBody body => (body.AsSurveyor, body.Note, null),
            HoldPointWithdrawnBody body => (null, body.Reason, null),
            AcceptanceWithdrawnBody body => (null, body.Reason, null),
            _ => throw new InvalidDataException($"Record {record.Sequence} is no step of a treatment."),
        };
        return new TreatmentStep(record.Sequence, record.At, record.By, record.Body.Kind, yes, text, reference);
    }
}
