using SiteProgress.Core.Records;

namespace SiteProgress.Jobs.Senders;

/// <summary>What became of what a machine sent. It tells nothing of the site beyond the sender's own rows.</summary>
/// <param name="RowsRead">Rows read.</param>
/// <param name="Recorded">Rows recorded now.</param>
/// <param name="AlreadyRecorded">Rows that were recorded before.</param>
/// <param name="NotTaken">Rows that could not be taken.</param>
/// <param name="Rows">Each row.</param>
/// <param name="Problems">What was wrong, by row and column.</param>
/// <param name="WholeRefused">True where nothing of it could be read.</param>
/// <param name="Later">Why nothing can be recorded now, where sending it again later helps.</param>
public sealed record SentAnswer(
    int RowsRead,
    int Recorded,
    int AlreadyRecorded,
    int NotTaken,
    IReadOnlyList<SentRowAnswer> Rows,
    IReadOnlyList<RowProblem> Problems,
    bool WholeRefused,
    string? Later)
{
    internal static SentAnswer NotNow(string why) => new(0, 0, 0, 0, [], [], false, why);
}

/// <summary>What became of one row.</summary>
/// <param name="Row">Its place in what was sent: from 1 in JSON, the line in a text table.</param>
/// <param name="RecordId">The sender's identifier, where it could be read.</param>
/// <param name="Became">What became of it.</param>
public sealed record SentRowAnswer(long Row, string? RecordId, SentRowBecame Became);

/// <summary>What became of a row.</summary>
public enum SentRowBecame
{
    /// <summary>Recorded now.</summary>
    Recorded = 1,

    /// <summary>Recorded before, with the same content.</summary>
    AlreadyRecorded,

    /// <summary>Recorded before with the same content, and withdrawn by a person since.</summary>
    AlreadyWithdrawn,

    /// <summary>Not recorded; the problems say why.</summary>
    NotTaken,
}
