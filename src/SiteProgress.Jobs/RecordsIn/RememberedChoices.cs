using SiteProgress.Core.Records;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>
/// What a person chose when they last recorded a file whose header has the same shape. It follows from the batches alone: a
/// batch that is withdrawn is no longer remembered.
/// </summary>
internal static class RememberedChoices
{
    /// <summary>The choices; null where there are none.</summary>
    /// <param name="history">Records of the site.</param>
    /// <param name="account">Who brings the file.</param>
    /// <param name="shape">Shape of its header.</param>
    /// <param name="headerLine">Line on which this file's header was found.</param>
    public static Remembered? Find(SiteHistory history, Guid account, string shape, long headerLine)
    {
        string by = SiteRecorder.AccountName(account);
        return Of(history.Batches.LastOrDefault(batch => batch.Withdrawal is null && batch.RecordedBy == by && batch.Body.Reading?.Shape == shape), headerLine);
    }

    /// <summary>The choices any person made for such a header: a machine cannot be asked, so the person who first brought its file has answered for it.</summary>
    /// <param name="history">Records of the site.</param>
    /// <param name="shape">Shape of the header.</param>
    /// <param name="headerLine">Line on which this file's header was found.</param>
    public static Remembered? FindForMachine(SiteHistory history, string shape, long headerLine)
        => Of(history.Batches.LastOrDefault(batch => batch.Withdrawal is null && batch.Body is { Sender: null, Reading: { } reading } && reading.Shape == shape), headerLine);

    private static Remembered? Of(Batch? last, long headerLine)
    {
        if (last?.Body.Reading?.Choices is not { Count: > 0 } kept) return null;
        UploadChoices choices = ChoicePairs.Read(kept.Select(choice => (choice.Name, choice.Value)));
        // Title rows above the header come and go.
        if (choices.HeaderLine is not null) choices = choices with { HeaderLine = headerLine };
        return new Remembered(last.Sequence, last.Body.FileName, choices);
    }
}

/// <summary>Choices taken up from an earlier batch.</summary>
/// <param name="Batch">Sequence of the batch.</param>
/// <param name="FileName">Name of its file.</param>
/// <param name="Choices">The choices.</param>
public sealed record Remembered(long Batch, string FileName, UploadChoices Choices)
{
    /// <summary>Where the choices come from, to be kept with the batch that takes them up.</summary>
    public string Sentence => FormattableString.Invariant($"Choices are those of batch {Batch} ({FileName}), whose header was the same.");
}
