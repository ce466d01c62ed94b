using System.Security.Cryptography;
using NodaTime;
using SiteProgress.Core.Logs;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Exchange;
using SiteProgress.Exchange.Installations;
using SiteProgress.Exchange.PileLogs;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;
using SiteProgress.Jobs.RecordsIn;
using SiteProgress.Storage.Records;

namespace SiteProgress.Jobs.Senders;

/// <summary>
/// Takes installations, and logs of them, that a machine sends and records them at once. What a text table holds its header says, what
/// JSON holds its members: an object with lists of values is a log.
/// A record is known by its barge and the sender's own identifier: sent again with the same content it is not recorded again, with other content it is a problem. Good rows do not wait
/// for bad ones; the bad ones are kept with the batch.
/// </summary>
[WithoutPermit("A sender's key is its proof, and opens nothing else.")]
public sealed class TakeInstallations(
    SiteHistories histories, SiteRecorder recorder, UploadStore uploads, PileLogStore logs, SenderLimits limits, IntakeLimits intake, TimeProvider clock)
{
    /// <summary>Takes what was sent.</summary>
    /// <param name="permit">Proof of the sender.</param>
    /// <param name="form">How it is written.</param>
    /// <param name="name">Name under which it is kept.</param>
    /// <param name="bytes">What was sent.</param>
    /// <param name="cancellation">Stops the work; nothing is recorded then.</param>
    /// <returns>What became of each row.</returns>
    /// <exception cref="AccessWithdrawnException">The key was withdrawn meanwhile; nothing was recorded.</exception>
    public async Task<SentAnswer> RunAsync(SenderPermit permit, SentForm form, string name, byte[] bytes, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(permit);
        SiteHistory before = await histories.ReadAsync(permit.Site, cancellation);
        if (before.Settings is not { } settings || before.Adjustments.Count == 0) return SentAnswer.NotNow("The site has no adjustment of its grid yet; nothing can be recorded. Send it again later.");
        (SentRows sent, IReadOnlyDictionary<string, PileLog>? samples) = Read(permit, form, bytes, before, cancellation);
        string sha256 = Convert.ToHexStringLower(SHA256.HashData(bytes));
        SentDecision decision = SentDecision.Of(before, sent);
        if (!decision.SaysAnythingNew(before, permit.Sender, sha256)) return decision.Answer(sent);
        if (await uploads.BytesKeptAsync(permit.Site, cancellation) + bytes.Length > intake.SiteQuotaBytes)
            return SentAnswer.NotNow("The site's quota for all files together is full; nothing was recorded. Its operator must raise it. Send it again later.");

        UploadRow upload = new()
        {
            Upload = Guid.CreateVersion7(clock.GetUtcNow()),
            FileName = name,
            Sha256 = "",
            UploadedBy = permit.Key,
            UploadedAt = clock.GetUtcNow().UtcDateTime,
        };
        using MemoryStream content = new(bytes);
        await uploads.KeepAsync(permit.Site, upload, content, long.MaxValue, cancellation);
        // Samples lie under their hash before a record names it, so that no record is ever without them.
        if (samples is not null) await logs.KeepAsync(permit.Site, samples, cancellation);
        await recorder.AppendAsSenderAsync(
            permit,
            history =>
            {
                decision = SentDecision.Of(history, sent);
                return decision.SaysAnythingNew(history, permit.Sender, sha256) ? Bodies(permit, history, sent, decision, upload, samples is null ? BatchContent.Installations : BatchContent.PileLogs) : [];
            },
            cancellation);
        return decision.Answer(sent);
    }

    private (SentRows Sent, IReadOnlyDictionary<string, PileLog>? Samples) Read(SenderPermit permit, SentForm form, byte[] bytes, SiteHistory history, CancellationToken cancellation)
    {
        Instant now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        Barge[] barges = [.. history.Settings!.Barges.Where(barge => permit.Barges.Contains(barge.Name, StringComparer.OrdinalIgnoreCase))];
        using MemoryStream content = new(bytes);
        FileKindGuess? guess = form is SentForm.Text ? FileKindGuess.From(content, ReadingChoices.For(history, now), cancellation) : null;
        BatchContent kind = guess?.Kind is FileKind.PileLogs ? BatchContent.PileLogs : BatchContent.Installations;
        Remembered? remembered = guess?.Header is { } header && RememberedChoices.FindForMachine(history, header.Shape, header.Line) is { } found && (found.Choices.Content ?? kind) == kind ? found : null;
        ReadingChoices choices = (remembered?.Choices ?? UploadChoices.AsTheFileSays).Reading(history, now) with { Barges = barges, MostRows = limits.MostRows };
        bool logs = form is SentForm.Json ? PileLogJson.Holds(bytes) : kind is BatchContent.PileLogs;
        if (logs)
        {
            TableReading<ReadLog> logged = form is SentForm.Json ? PileLogJson.Read(bytes, choices, cancellation) : PileLogReader.Read(content, choices, cancellation);
            ReadUpload read = LogRows.Put(new UploadRow { FileName = "", Sha256 = "" }, logged, barges) with { RowsRead = form is SentForm.Json ? logged.RowsRead : logged.Rows.Count };
            return (SentRows.OfLogs(remembered is null ? read : read with { Assumptions = [.. read.Assumptions, remembered.Sentence] }), read.Logs);
        }

        if (form is SentForm.Json) return (SentRows.Of(InstallationJson.Read(bytes, choices, cancellation), form), null);

        TableReading<Installation> reading = InstallationReader.Read(content, choices, cancellation);
        return (SentRows.Of(remembered is null ? reading : reading with { Assumptions = [.. reading.Assumptions, remembered.Sentence] }, form), null);
    }

    private static RecordBody[] Bodies(SenderPermit permit, SiteHistory history, SentRows sent, SentDecision decision, UploadRow upload, BatchContent content) =>
    [
        new BatchBody(
            upload.Upload, upload.FileName, upload.Sha256, content, history.Adjustments[^1].Adjustment.Revision,
            sent.RowsRead, decision.Fresh.Count, [.. decision.Problems.Select(problem => problem.Row).Where(row => row > 0).Distinct().Order()],
            sent.Assumptions, permit.Sender, decision.Problems.Count > 0 ? decision.Problems : null),
        .. decision.Fresh.Select<SentRow, RecordBody>(row => row.Value is LoggedPile log ? new PileLoggedBody(row.Row, log) : new PileInstalledBody(row.Row, (Installation)row.Value)),
    ];
}

/// <summary>How something was written that a machine sent.</summary>
public enum SentForm
{
    /// <summary>JSON.</summary>
    Json = 1,

    /// <summary>A text table.</summary>
    Text = 2,
}
