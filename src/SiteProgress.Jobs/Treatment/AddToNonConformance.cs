using NodaTime;
using SiteProgress.Core.Records;
using SiteProgress.Core.Treatment;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Treatment;

/// <summary>Adds a comment, a due date or evidence to a non-conformance.</summary>
public sealed class AddToNonConformance(SiteRecorder recorder)
{
    /// <summary>Adds a comment.</summary>
    [Needs(Right.Comment)]
    public async Task<TreatmentAnswer> CommentAsync(Permit permit, int number, string text, CancellationToken cancellation)
    {
        permit.Demand(Right.Comment);
        if (Treating.WhyNot(text, "The comment") is { } why) return new(null, why);
        return await AddAsync(permit, Right.Comment, number, mustBeOpen: false, () => new CommentMadeBody(number, text.Trim()), cancellation);
    }

    /// <summary>Sets another due date, with a reason.</summary>
    [Needs(Right.Comment)]
    public async Task<TreatmentAnswer> SetDueDateAsync(Permit permit, int number, LocalDate dueOn, string reason, CancellationToken cancellation)
    {
        permit.Demand(Right.Comment);
        if ((Treating.WhyNot(reason, "The reason") ?? Treating.WhyNotDue(dueOn)) is { } why) return new(null, why);
        return await AddAsync(permit, Right.Comment, number, mustBeOpen: true, () => new DueDateSetBody(number, dueOn, reason.Trim()), cancellation);
    }

    /// <summary>Gives evidence that what was decided is done.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="number">Number of the non-conformance.</param>
    /// <param name="reference">Where the evidence is: a document, a measurement, a record.</param>
    /// <param name="note">What it shows.</param>
    /// <param name="cancellation">Stops the work.</param>
    [Needs(Right.Propose)]
    public async Task<TreatmentAnswer> GiveEvidenceAsync(Permit permit, int number, string reference, string note, CancellationToken cancellation)
    {
        permit.Demand(Right.Propose);
        if ((Treating.WhyNot(reference, "The reference") ?? Treating.WhyNot(note, "What the evidence shows")) is { } why) return new(null, why);
        return await AddAsync(permit, Right.Propose, number, mustBeOpen: true, () => new EvidenceGivenBody(number, reference.Trim(), note.Trim()), cancellation);
    }

    private Task<TreatmentAnswer> AddAsync(Permit permit, Right right, int number, bool mustBeOpen, Func<RecordBody> make, CancellationToken cancellation)
        => Treating.RecordAsync(
            recorder,
            permit,
            right,
            site => site.Find(number) switch
            {
                null => Attempt.Refuse($"There is no non-conformance {number} on this site."),
                { Stage: Stage.Closed } when mustBeOpen => Attempt.Refuse($"Non-conformance {number} is closed."),
                _ => Attempt.Record(number, make()),
            },
            cancellation);
}
