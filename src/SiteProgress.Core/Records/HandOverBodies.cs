namespace SiteProgress.Core.Records;

/// <summary>The record of the site was offered to its owner as a package.</summary>
/// <param name="Number">Number of the offer, from 1.</param>
/// <param name="UpTo">Sequence of the last record in the package.</param>
/// <param name="HeadHash">Hash of the chain at that record, hexadecimal.</param>
/// <param name="PackageSha256">SHA-256 of the package, 64 lower-case hexadecimal digits.</param>
/// <param name="PackageBytes">Its length, bytes.</param>
/// <param name="Note">What is handed over.</param>
public sealed record HandOverOfferedBody(int Number, long UpTo, string HeadHash, string PackageSha256, long PackageBytes, string Note) : RecordBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.HandOverOffered;
}

/// <summary>The owner took an offered package over, or did not.</summary>
/// <param name="Offer">Number of the offer.</param>
/// <param name="Received">True where it was taken over.</param>
/// <param name="Comment">What was said; empty where nothing was.</param>
public sealed record HandOverAnsweredBody(int Offer, bool Received, string Comment) : RecordBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.HandOverAnswered;
}

/// <summary>An offer of the record with its answer.</summary>
/// <param name="Offer">The offer.</param>
/// <param name="Answer">The answer; null while there is none.</param>
public sealed record HandOverOffer(Kept<HandOverOfferedBody> Offer, Kept<HandOverAnsweredBody>? Answer);
