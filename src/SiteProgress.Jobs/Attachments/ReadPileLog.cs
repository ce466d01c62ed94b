using Microsoft.EntityFrameworkCore;
using NodaTime;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Logs;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
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
/// <param name="Calibration">Record of the calibration from which the casing's inner diameter is; null where it is from the settings.</param>
/// <param name="Notes">What the site does not state and the log would need, and where the log speaks of another casing than the record.</param>
public sealed record PileLogView(
    string Pile, long Attachment, string FileName, PileLog Log, LogInterpretation Reading, LogContext Context, string TimeZone, string LevelDatum,
    long? Calibration, IReadOnlyList<string> Notes);

/// <summary>What became of reading the log of a pile. Both are null where no log is attached.</summary>
/// <param name="View">The log with what it tells.</param>
/// <param name="WhyNot">Why the attached log cannot be read.</param>
public sealed record PileLogAnswer(PileLogView? View, string? WhyNot);

/// <summary>Reads the log attached to a pile, the last one that was not withdrawn, against the pile's design and the casing that built it.</summary>
public sealed class ReadPileLog(SiteHistories histories, IDbContextFactory<SiteProgressDb> contexts, UploadStore uploads, TimeProvider clock)
{
    /// <summary>Reads it.</summary>
    /// <returns>The log, or why the one attached cannot be read; neither where none is attached.</returns>
    [Needs(Right.See)]
    public async Task<PileLogAnswer> RunAsync(Permit permit, string number, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        DerivedSite site = await histories.ReadDerivedAsync(permit.Site, cancellation);
        Attachment? attached = Attachment.Of(site.History.Treatments).LastOrDefault(one =>
            one.Withdrawn is null && one.File.Content == AttachmentContent.PileLog && string.Equals(one.File.Pile, number, StringComparison.OrdinalIgnoreCase));
        if (attached is null || site.History.Settings is not { } settings) return new(null, null);
        await using SiteProgressDb db = await contexts.CreateDbContextAsync(cancellation);
        PileRow? pile = await db.Piles.AsNoTracking().FirstOrDefaultAsync(row => row.Site == permit.Site && row.Number == number, cancellation);
        if (pile is not { Barge: { } barge, Casing: { } casingNumber } || settings.FindZone(pile.Zone) is not { } zone)
            return new(null, $"{attached.File.FileName} is attached, but no installation stands for this pile, so it is not known which casing built it. The log is read once one stands.");
        if (settings.FindBarge(barge) is not { } known || known.Casings.FirstOrDefault(one => one.Number == casingNumber) is not { } casing)
            return new(null, $"{attached.File.FileName} is attached, but the site's settings hold no casing {casingNumber} of {barge}, whose inner diameter is needed to read it.");
        await using Stream bytes = uploads.Open(permit.Site, attached.File.Upload);
        TableReading<ReadLog> read = PileLogReader.Read(bytes, ReadingChoices.For(settings, Instant.FromDateTimeOffset(clock.GetUtcNow())), cancellation);
        if (read.Rows.Select(row => row.Value).FirstOrDefault(one => AttachFile.IsOf(one, number)) is not { } log)
            return new(null, $"{attached.File.FileName} is attached, but with the site's settings of today it cannot be read as a log of this pile.");
        BatchRow<Calibration>? calibrated = new CalibrationsInForce(site.History).At(known.Name, casing.Number, log.Log.FirstSample);
        LogContext context = Context(settings, zone, pile, casing, calibrated?.Value, log.Log.SandMeasure);
        PileLogView view = new(
            number, attached.Sequence, attached.File.FileName, log.Log, LogInterpreter.Read(log.Log, context), context, settings.TimeZone, settings.LevelDatum.Name,
            calibrated?.Value.InnerAreaSquareMetres is > 0 ? calibrated.Sequence : null, [.. Notes(log, context, known.Name, casing, zone)]);
        return new(view, null);
    }

    private static IEnumerable<string> Notes(ReadLog log, LogContext context, string barge, Casing casing, Zone zone)
    {
        if (log.Log.SandMeasure == SandMeasure.DistanceFromTop && context.CasingLengthMetres is null)
            yield return $"This log measures the sand from the casing's top, and no calibration of casing {casing.Number} of {barge} that held then says what the gauge shows in the empty casing, which is the casing's length: sand and diameters are not told.";
        if (context.VolumeChangeFactor is null)
            yield return $"The site's settings state no volume-change factor of {zone.SandSource}: diameters are not told.";
        if ((log.Barge is { } named && !string.Equals(named, barge, StringComparison.OrdinalIgnoreCase)) || (log.Casing is { } other && other != casing.Number))
            yield return $"The log names {(log.Casing is { } written ? $"casing {written} of " : "")}{log.Barge ?? barge}, the record casing {casing.Number} of {barge}; it is read with the inner diameter of the record's casing.";
    }

    private static LogContext Context(SiteSettings settings, Zone zone, PileRow pile, Casing casing, Calibration? calibrated, SandMeasure sand) => new(
        calibrated?.InnerAreaSquareMetres is { } area and > 0 ? Math.Sqrt(4 / Math.PI * area) : casing.InnerDiameterMetres,
        // A gauge that measures from the top shows the length of the casing when it is empty.
        sand == SandMeasure.DistanceFromTop && calibrated?.GaugeZeroMetres is { } empty and > 0 ? empty : null,
        settings.FindSandSource(zone.SandSource)?.VolumeChangeFactor,
        pile.DesignDiameter,
        pile.DesignTop,
        pile.DesignTip,
        zone.StopPenetrationRateMetresPerMinute,
        LogConstants.Standard);
}
