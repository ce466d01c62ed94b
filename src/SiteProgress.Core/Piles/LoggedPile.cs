using NodaTime;

namespace SiteProgress.Core.Piles;

/// <summary>
/// The log of one attempt at one pile, as recorded: where it says that it belongs, and the hash of its samples. The samples
/// themselves are kept once, under that hash.
/// </summary>
/// <param name="RecordId">The sender's identifier of the installation.</param>
/// <param name="PileNumber">Pile number as the crew wrote it; null where the log names none.</param>
/// <param name="Barge">Barge.</param>
/// <param name="Casing">Number of the casing; null where the log names none.</param>
/// <param name="FirstSample">Time of the first sample.</param>
/// <param name="LastSample">Time of the last sample.</param>
/// <param name="Samples">Number of samples.</param>
/// <param name="Sha256">SHA-256 of the canonical bytes of the samples, lower-case hexadecimal.</param>
public sealed record LoggedPile(
    string? RecordId, string? PileNumber, string Barge, int? Casing, Instant FirstSample, Instant LastSample, int Samples, string Sha256);
