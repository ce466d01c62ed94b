using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Records;

/// <summary>The log of one attempt at one pile. Its samples are kept under the hash it names, so that the chain covers them.</summary>
/// <param name="Line">Line of the file on which its first sample stands, from 1.</param>
/// <param name="Log">What it says of itself.</param>
public sealed record PileLoggedBody(long Line, LoggedPile Log) : RecordBody, IRowBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.PileLogged;
}
