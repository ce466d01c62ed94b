using Microsoft.EntityFrameworkCore;
using NodaTime;
using SiteProgress.Core.Logs;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Treatment;
using SiteProgress.Exchange;
using SiteProgress.Exchange.PileLogs;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;
using SiteProgress.Storage;
using SiteProgress.Storage.Derived;
using SiteProgress.Storage.Records;

namespace SiteProgress.Jobs.Attachments;

/// <summary>A log of a pile with what it tells.</summary>
/// <param name="Pile">Pile number.</param>
/// <param name="Attachment">Record that attached the log.</param>
/// <param name="FileName">Its file.</param>
/// <param name="Log">The samples.</param>
/// <param name="Reading">What they tell.</param>
/// <param name="Context">What they were read against.</param>
/// <param name="TimeZone">Time zone of the site.</param>
/// <param name="LevelDatum">Datum of all levels.</param>
public sealed record PileLogView(
    string Pile, long Attachment, string FileName, PileLog Log, LogInterpretation Reading, LogContext Context, string TimeZone, string LevelDatum);

/// <summary>Reads the log attached to a pile, the last one that was not withdrawn, against the pile's design and the casing that built it.</summary>
public sealed class ReadPileLog(SiteHistories histories, IDbContextFactory<SiteProgressDb> contexts, UploadStore uploads, TimeProvider clock)
{
    /// <summary>Reads it.</summary>
    /// <returns>Null where the pile has no log, or nothing stands for it.</returns>
    [Needs(Right.See)]
    public async Task<PileLogView?> RunAsync(Permit permit, string number, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        Core.Derivation.DerivedSite site = await histories.ReadDerivedAsync(permit.Site, cancellation);
        Attachment? attached = Attachment.Of(site.History.Treatments).LastOrDefault(one =>
            one.Withdrawn is null && one.File.Content == AttachmentContent.PileLog && string.Equals(one.File.Pile, number, StringComparison.OrdinalIgnoreCase));
        if (attached is null || site.History.Settings is not { } settings) return null;
        await using SiteProgressDb db = await contexts.CreateDbContextAsync(cancellation);
        PileRow? pile = await db.Piles.AsNoTracking().FirstOrDefaultAsync(row => row.Site == permit.Site && row.Number == number, cancellation);
        if (pile is null || Context(settings, pile) is not { } context) return null;
        await using Stream bytes = uploads.Open(permit.Site, attached.File.Upload);
        TableReading<ReadLog> read = PileLogReader.Read(bytes, ReadingChoices.For(settings, Instant.FromDateTimeOffset(clock.GetUtcNow())), cancellation);
        return read.Rows.Select(row => row.Value).FirstOrDefault(one => AttachFile.IsOf(one, number)) is { } log
            ? new PileLogView(number, attached.Sequence, attached.File.FileName, log.Log, LogInterpreter.Read(log.Log, context), context, settings.TimeZone, settings.LevelDatum.Name)
            : null;
    }

    /// <summary>Design of the pile and inner diameter of the casing it stands on; null where the settings do not hold that casing.</summary>
    private static LogContext? Context(SiteSettings settings, PileRow pile)
    {
        Zone? zone = settings.FindZone(pile.Zone);
        Casing? casing = pile.Barge is { } barge ? settings.FindBarge(barge)?.Casings.FirstOrDefault(one => one.Number == pile.Casing) : null;
        return zone is null || casing is null ? null : new LogContext(
            casing.InnerDiameterMetres,
            null,
            settings.FindSandSource(zone.SandSource)?.VolumeChangeFactor,
            pile.DesignDiameter,
            pile.DesignTop,
            pile.DesignTip,
            zone.StopPenetrationRateMetresPerMinute,
            LogConstants.Standard);
    }
}
