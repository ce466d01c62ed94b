using NodaTime;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Logs;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Core.Treatment;
using SiteProgress.Exchange;
using SiteProgress.Exchange.Attachments;
using SiteProgress.Exchange.PileLogs;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Operation;
using SiteProgress.Jobs.Recording;
using SiteProgress.Jobs.RecordsIn;
using SiteProgress.Jobs.Treatment;
using SiteProgress.Storage.Records;
using Attempt = SiteProgress.Jobs.Treatment.Attempt;

namespace SiteProgress.Jobs.Attachments;

/// <summary>What a file is attached to: a pile or a non-conformance.</summary>
/// <param name="Pile">Pile number.</param>
/// <param name="NonConformance">Number of the non-conformance.</param>
public sealed record AttachmentTarget(string? Pile, int? NonConformance);

/// <summary>
/// Attaches a file as evidence to a pile or a non-conformance, or withdraws it. What the file is, its bytes say; what is none of
/// the kinds taken is refused and not kept.
/// </summary>
public sealed class AttachFile(SiteRecorder recorder, SiteHistories histories, UploadStore uploads, IntakeLimits limits, TimeProvider clock)
{
    /// <summary>Longest file attached, bytes.</summary>
    public static readonly long LargestBytes = 20L << 20;

    /// <summary>Most files attached to one pile or non-conformance and not withdrawn.</summary>
    public static readonly int MostFiles = 40;

    /// <summary>Attaches a file.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="target">What it is attached to.</param>
    /// <param name="fileName">Name of the file as sent; only its last part is kept.</param>
    /// <param name="note">What it shows.</param>
    /// <param name="content">The bytes.</param>
    /// <param name="cancellation">Stops the work.</param>
    [Needs(Right.Comment)]
    public async Task<TreatmentAnswer> RunAsync(Permit permit, AttachmentTarget target, string fileName, string note, Stream content, CancellationToken cancellation)
    {
        permit.Demand(Right.Comment);
        if (Treating.WhyNot(note, "What the file shows", needed: false) is { } why) return new(null, why);
        DerivedSite site = await histories.ReadDerivedAsync(permit.Site, cancellation);
        if (WhyNot(site, target) is { } refusal) return new(null, refusal);
        if (await uploads.BytesKeptAsync(permit.Site, cancellation) + LargestBytes > limits.SiteQuotaBytes)
            return new(null, StoreUpload.Sentence(UploadRefusal.QuotaFull, limits));
        try
        {
            await using FileStream? arrived = await ArrivedFile.WholeAsync(content, LargestBytes, cancellation);
            return arrived is null
                ? new(null, $"The file is longer than {LargestBytes >> 20} MB. Nothing was kept.")
                : await KeepAsync(permit, site, target, ArrivedFile.PlainName(fileName), note, arrived, cancellation);
        }
        catch (IOException failure) when (DiskRoom.IsFull(failure))
        {
            return new(null, StoreUpload.Sentence(UploadRefusal.DiskFull, limits));
        }
    }

    /// <summary>Withdraws an attached file; it stays in the record.</summary>
    [Needs(Right.Comment)]
    public async Task<TreatmentAnswer> WithdrawAsync(Permit permit, long attachment, string reason, CancellationToken cancellation)
    {
        permit.Demand(Right.Comment);
        if (Treating.WhyNot(reason, "The reason") is { } why) return new(null, why);
        string me = SiteRecorder.AccountName(permit.Account);
        return await Treating.RecordAsync(
            recorder,
            permit,
            Right.Comment,
            site => Attachment.Of(site.History.Treatments).FirstOrDefault(one => one.Sequence == attachment) switch
            {
                null => Attempt.Refuse($"Record {attachment} of this site attaches no file."),
                { Withdrawn: not null } => Attempt.Refuse("This file is withdrawn already."),
                { By: var by } when by != me => Attempt.Refuse("Only who attached a file withdraws it."),
                _ => Attempt.Record(null, new AttachmentWithdrawnBody(attachment, reason.Trim())),
            },
            cancellation);
    }

    private async Task<TreatmentAnswer> KeepAsync(
        Permit permit, DerivedSite site, AttachmentTarget target, string name, string note, FileStream arrived, CancellationToken cancellation)
    {
        if (arrived.Length == 0) return new(null, StoreUpload.Sentence(UploadRefusal.Empty, limits));
        AttachmentContent? what = PictureOrDocument.Of(arrived);
        if (what is null && Unread(site, target, arrived, cancellation) is { } problem) return new(null, problem);
        arrived.Position = 0;
        UploadRow upload = new()
        {
            Upload = Guid.CreateVersion7(clock.GetUtcNow()),
            FileName = name,
            Sha256 = "",
            UploadedBy = permit.Account,
            UploadedAt = clock.GetUtcNow().UtcDateTime,
        };
        if (!await uploads.KeepAsync(permit.Site, upload, arrived, LargestBytes, cancellation)) return new(null, StoreUpload.Sentence(UploadRefusal.BrokenOff, limits));
        FileAttachedBody body = new(
            target.Pile, target.NonConformance, upload.Upload, name, what ?? AttachmentContent.PileLog, upload.ByteLength, upload.Sha256, (note ?? "").Trim());
        return await Treating.RecordAsync(
            recorder, permit, Right.Comment, now => WhyNot(now, target) is { } late ? Attempt.Refuse(late) : Attempt.Record(null, body), cancellation);
    }

    /// <summary>Why a file that is no picture and no document is not a log of the pile either; null when it is one.</summary>
    private string? Unread(DerivedSite site, AttachmentTarget target, FileStream arrived, CancellationToken cancellation)
    {
        const string Taken = "A photo (JPEG), a picture (PNG), a document (PDF) or, on a pile, its log as a text table is taken. Nothing was kept.";
        if (target.Pile is not { } pile || site.History.Settings is not { } settings) return "By its content this is none of the kinds of file taken here. " + Taken;
        TableReading<ReadLog> read = PileLogReader.Read(arrived, ReadingChoices.For(settings, Instant.FromDateTimeOffset(clock.GetUtcNow())), cancellation);
        if (read.Rows.Any(row => IsOf(row.Value, pile))) return null;
        return read.Rows.Count > 0
            ? $"The log in this file is of pile {read.Rows[0].Value.PileNumber}, not of {pile}. Nothing was kept."
            : $"By its content this is none of the kinds of file taken here{(read.RowsRead > 0 && read.Problems.Count > 0 ? $"; read as a log it says: {read.Problems[0].Sentence}" : ".")} {Taken}";
    }

    /// <summary>True when a log of a file is of a pile: it says so, or says nothing.</summary>
    internal static bool IsOf(ReadLog log, string pile)
        => log.Log.Count > 1 && (log.PileNumber is null || string.Equals(log.PileNumber, pile, StringComparison.OrdinalIgnoreCase));

    private static string? WhyNot(DerivedSite site, AttachmentTarget target)
    {
        int attached = Attachment.Of(site.History.Treatments).Count(one => one.Withdrawn is null && one.File.Pile == target.Pile && one.File.NonConformance == target.NonConformance);
        if (attached >= MostFiles) return $"{MostFiles} files are attached already; withdraw one first.";
        return target switch
        {
            { Pile: { } pile, NonConformance: null } => site.Treated.Find(pile) is null ? $"The design holds no pile {pile}." : null,
            { Pile: null, NonConformance: { } number } => site.Find(number) is null ? $"There is no non-conformance {number} on this site." : null,
            _ => "A file is attached to a pile or to a non-conformance.",
        };
    }
}
