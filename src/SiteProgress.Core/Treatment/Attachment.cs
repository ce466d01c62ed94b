using NodaTime;
using SiteProgress.Core.Records;

namespace SiteProgress.Core.Treatment;

/// <summary>A file attached as evidence.</summary>
/// <param name="Sequence">Record that attached it.</param>
/// <param name="At">When.</param>
/// <param name="By">By whom.</param>
/// <param name="File">The file.</param>
/// <param name="Withdrawn">The record that withdrew it; null while it counts.</param>
public sealed record Attachment(long Sequence, Instant At, string By, FileAttachedBody File, TreatmentRecord? Withdrawn)
{
    /// <summary>Every attachment of a site, in order.</summary>
    /// <param name="records">Records of treatment, in order.</param>
    public static IReadOnlyList<Attachment> Of(IReadOnlyList<TreatmentRecord> records)
    {
        ArgumentNullException.ThrowIfNull(records);
        Dictionary<long, TreatmentRecord> withdrawn = records
            .Where(record => record.Body is AttachmentWithdrawnBody)
            .ToDictionary(record => ((AttachmentWithdrawnBody)record.Body).Attachment);
        return [.. records.Where(record => record.Body is FileAttachedBody)
            .Select(record => new Attachment(record.Sequence, record.At, record.By, (FileAttachedBody)record.Body, withdrawn.GetValueOrDefault(record.Sequence)))];
    }
}
