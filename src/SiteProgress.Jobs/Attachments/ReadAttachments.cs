using NodaTime;
using Npgsql;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Treatment;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;
using SiteProgress.Jobs.RecordsIn;
using SiteProgress.Jobs.Treatment;
using SiteProgress.Storage.Records;

namespace SiteProgress.Jobs.Attachments;

/// <summary>The files attached to a pile or a non-conformance, and their bytes.</summary>
public sealed class ReadAttachments(SiteHistories histories, NpgsqlDataSource store, UploadStore uploads, TimeProvider clock)
{
    /// <summary>The files.</summary>
    /// <param name="Files">In the order in which they were attached, withdrawn ones too.</param>
    /// <param name="TimeZone">Time zone of the site.</param>
    public sealed record List(IReadOnlyList<Line> Files, string TimeZone);

    /// <summary>One file.</summary>
    /// <param name="Sequence">Record that attached it; its address.</param>
    /// <param name="FileName">Its name.</param>
    /// <param name="Content">What it is by its content.</param>
    /// <param name="ByteLength">Length in bytes.</param>
    /// <param name="Sha256">SHA-256 of its bytes.</param>
    /// <param name="Note">What it shows.</param>
    /// <param name="At">When it was attached.</param>
    /// <param name="By">By whom.</param>
    /// <param name="Mine">True when the person who asks attached it.</param>
    /// <param name="Withdrawn">Why it was withdrawn; null while it counts.</param>
    public sealed record Line(
        long Sequence, string FileName, AttachmentContent Content, long ByteLength, string Sha256, string Note, Instant At, string By, bool Mine, string? Withdrawn);

    /// <summary>Reads the list.</summary>
    [Needs(Right.See)]
    public async Task<List> RunAsync(Permit permit, string? pile, int? nonConformance, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        SiteAtHand hand = await SiteAtHand.ReadAsync(permit, histories, store, clock, cancellation);
        Attachment[] files = [.. Attachment.Of(hand.Site.History.Treatments).Where(one =>
            (pile is null || string.Equals(one.File.Pile, pile, StringComparison.OrdinalIgnoreCase)) && (nonConformance is null || one.File.NonConformance == nonConformance))];
        IReadOnlyDictionary<string, string> names = await hand.NamesAsync(files.Select(one => one.By), cancellation);
        string me = SiteRecorder.AccountName(permit.Account);
        return new List(
            [.. files.Select(one => new Line(
                one.Sequence, one.File.FileName, one.File.Content, one.File.ByteLength, one.File.Sha256, one.File.Note, one.At, names[one.By], one.By == me,
                (one.Withdrawn?.Body as Core.Records.AttachmentWithdrawnBody)?.Reason))],
            hand.TimeZone);
    }

    /// <summary>The bytes of an attached file; null where the record attaches none.</summary>
    [Needs(Right.See)]
    public async Task<(RawFile File, AttachmentContent Content)?> OpenAsync(Permit permit, long sequence, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        SiteAtHand hand = await SiteAtHand.ReadAsync(permit, histories, store, clock, cancellation);
        return Attachment.Of(hand.Site.History.Treatments).FirstOrDefault(one => one.Sequence == sequence)?.File is { } file
            ? (new RawFile(file.FileName, uploads.Open(permit.Site, file.Upload)), file.Content)
            : null;
    }
}
