using SiteProgress.Core.Derivation;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;
using SiteProgress.Jobs.Treatment;

namespace SiteProgress.Jobs.HandOver;

/// <summary>
/// Offers the record to the owner as a package, and takes it over. The offer keeps the hash of the package; who takes it over says the
/// hash of the package they hold, so that nobody signs for something that did not reach them.
/// </summary>
public sealed class KeepHandOver(WriteHandOver write, SiteRecorder recorder)
{
    /// <summary>Makes the package of the record as it stands and offers it.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="note">What is handed over.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <returns>The number of the offer, or why nothing was recorded.</returns>
    [Needs(Right.ReviseDesign)]
    public async Task<TreatmentAnswer> OfferAsync(Permit permit, string note, CancellationToken cancellation)
    {
        permit.Demand(Right.ReviseDesign);
        if (Treating.WhyNot(note, "What is handed over") is { } why) return new(null, why);
        if (await write.RunAsync(permit, null, cancellation) is not { } package) return new(null, "The site has no record to hand over yet.");
        await package.Bytes.DisposeAsync();
        return await Treating.RecordAsync(recorder, permit, Right.ReviseDesign, site =>
        {
            IReadOnlyList<HandOverOffer> before = site.History.HandOvers;
            // The package must hold exactly what stands; only then does its hash say what was handed over.
            if (site.History.Sequence != package.Sequence) return Attempt.Refuse("Records came in while the package was being made; look at what is open again and offer it then.");
            if (before.Count > 0 && before[^1] is { } last && (last.Answer?.Sequence ?? last.Offer.Sequence) == package.Sequence) return Attempt.Refuse($"Nothing was recorded since offer {last.Offer.Body.Number}; there is nothing new to hand over.");
            int number = before.Count + 1;
            return Attempt.Record(number, new HandOverOfferedBody(number, package.Sequence, package.Head, package.Sha256, package.ByteLength, note.Trim()));
        }, cancellation);
    }

    /// <summary>Takes the last offer over.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="offer">Number of the offer.</param>
    /// <param name="sha256">SHA-256 of the package as received.</param>
    /// <param name="comment">What is said; may be empty.</param>
    /// <param name="cancellation">Ends the work.</param>
    [Needs(Right.Decide)]
    public Task<TreatmentAnswer> TakeOverAsync(Permit permit, int offer, string? sha256, string? comment, CancellationToken cancellation)
    {
        permit.Demand(Right.Decide);
        return AnswerAsync(permit, offer, comment, needed: false, received: true, one =>
            string.Equals(string.Concat((sha256 ?? "").Where(char.IsLetterOrDigit)), one.PackageSha256, StringComparison.OrdinalIgnoreCase)
                ? null
                : "That is not the SHA-256 of the package that was offered, 64 hexadecimal digits. Make it of the file you received, with sha256sum; if it differs, the file is not the one offered.", cancellation);
    }

    /// <summary>Does not take the last offer over, and says why.</summary>
    [Needs(Right.Decide)]
    public Task<TreatmentAnswer> DeclineAsync(Permit permit, int offer, string? comment, CancellationToken cancellation)
    {
        permit.Demand(Right.Decide);
        return AnswerAsync(permit, offer, comment, needed: true, received: false, _ => null, cancellation);
    }

    private Task<TreatmentAnswer> AnswerAsync(Permit permit, int offer, string? comment, bool needed, bool received, Func<HandOverOfferedBody, string?> whyNot, CancellationToken cancellation)
    {
        if (Treating.WhyNot(comment, received ? "What you say" : "Why it is not taken over", needed) is { } why) return Task.FromResult(new TreatmentAnswer(null, why));
        return Treating.RecordAsync(recorder, permit, Right.Decide, site =>
        {
            HandOverOffer? one = site.History.HandOvers.FirstOrDefault(each => each.Offer.Body.Number == offer);
            if (one is null) return Attempt.Refuse($"There is no offer {offer}.");
            if (one != site.History.HandOvers[^1]) return Attempt.Refuse($"Offer {offer} was followed by another; the last one is answered.");
            if (one.Answer is { } answered) return Attempt.Refuse($"Offer {offer} was answered in record {answered.Sequence}.");
            Treating.DemandOther(permit, [one.Offer.By], "Nobody takes over what they offered themselves.");
            if (whyNot(one.Offer.Body) is { } refusal) return Attempt.Refuse(refusal);
            return Attempt.Record(offer, new HandOverAnsweredBody(offer, received, (comment ?? "").Trim()));
        }, cancellation);
    }
}
