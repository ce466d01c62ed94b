using NodaTime;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Logs;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Core.Treatment;
using SiteProgress.Exchange;
using SiteProgress.Exchange.PileLogs;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;
using SiteProgress.Storage.Records;

namespace SiteProgress.Jobs.Attachments;

/// <summary>A log of a pile with what it tells.</summary>
/// <param name="Pile">Pile number.</param>
/// <param name="Record">The record of the log; where it does not count, the record that attached it.</param>
/// <param name="Counts">True for a recorded log, by which the pile is judged; false for one that was attached as evidence.</param>
/// <param name="FileName">Its file.</param>
/// <param name="Log">The samples.</param>
/// <param name="Reading">What they tell.</param>
/// <param name="Context">What they were read against.</param>
/// <param name="TimeZone">Time zone of the site.</param>
/// <param name="LevelDatum">Datum of all levels.</param>
/// <param name="Calibration">Record of the calibration from which the casing's inner diameter is; null where it is from the settings.</param>
/// <param name="Notes">What the site does not state and the log would need, and where the log speaks of another casing than the record.</param>
public sealed record PileLogView(
    string Pile, long Record, bool Counts, string FileName, PileLog Log, LogInterpretation Reading, LogContext Context, string TimeZone, string LevelDatum,
    long? Calibration, IReadOnlyList<string> Notes);

/// <summary>What became of reading the log of a pile. Both are null where there is none.</summary>
/// <param name="View">The log with what it tells.</param>
/// <param name="WhyNot">Why the log there is cannot be read.</param>
public sealed record PileLogAnswer(PileLogView? View, string? WhyNot)
{
    /// <summary>Recorded logs that look as if they were of this pile and are not joined, with what disagrees.</summary>
    public IReadOnlyList<string> NotJoined { get; init; } = [];
}

/// <summary>
/// Reads the log of a pile against its design and the casing that built it: the recorded log of the installation it stands on, else
/// the last log that was attached to it and not withdrawn.
/// </summary>
public sealed class ReadPileLog(SiteHistories histories, UploadStore uploads, TimeProvider clock)
{
    /// <summary>How far record and log may name a level apart before it is said, metres. Common practice, no source.</summary>
    private const double LevelsApartMetres = 0.3;

    /// <summary>Reads it.</summary>
    /// <returns>The log, or why the one there is cannot be read; neither where there is none.</returns>
    [Needs(Right.See)]
    public async Task<PileLogAnswer> RunAsync(Permit permit, string number, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        DerivedSite site = await histories.ReadDerivedAsync(permit.Site, cancellation);
        if (site.History.Settings is not { } settings) return new(null, null);
        PileJudgement? pile = site.Piles.FirstOrDefault(one => string.Equals(one.Judgement.Pile.Number, number, StringComparison.OrdinalIgnoreCase))?.Judgement;
        string[] notJoined = pile is null ? [] : [.. NotJoined(site, pile)];
        PileLogAnswer answer = pile?.Logs.LastOrDefault(log => log.Part.Installation.Log is not null) is { } recorded
            ? Recorded(site, settings, pile, recorded.Part)
            : Attached(permit, site, settings, pile, number, cancellation);
        return answer with { NotJoined = notJoined };
    }

    private static PileLogAnswer Recorded(DerivedSite site, SiteSettings settings, PileJudgement pile, StandingPart part)
    {
        JoinedLog joined = part.Installation.Log!;
        DerivedLog row = site.Logs.First(log => log.Row.Sequence == joined.Sequence);
        string file = site.History.Batches.First(batch => batch.Sequence == row.Row.Batch).Body.FileName;
        if (site.History.Readings.Find(joined.Sha256) is not { } log)
            return new(null, $"The log of record {joined.Sequence} ({file}) counts for this pile, but its samples are not in the store.");
        bool last = ReferenceEquals(part, pile.Standing[^1]);
        double cutOff = last ? pile.Pile.TopLevelMetres : part.ToLevelMetres ?? pile.Pile.TopLevelMetres;
        Source source = new(joined.Sequence, true, file, log, row.Row.Value.Barge, row.Row.Value.Casing);
        PileLogAnswer answer = View(site, settings, pile, part, source, cutOff);
        return answer.View is { } view && pile.Standing.Count > 1
            ? answer with { View = view with { Notes = [.. view.Notes, $"The pile stands on {pile.Standing.Count} installations; this is the log of record {part.Installation.Sequence}."] } }
            : answer;
    }

    private PileLogAnswer Attached(Permit permit, DerivedSite site, SiteSettings settings, PileJudgement? pile, string number, CancellationToken cancellation)
    {
        Attachment? attached = Attachment.Of(site.History.Treatments).LastOrDefault(one =>
            one.Withdrawn is null && one.File.Content == AttachmentContent.PileLog && string.Equals(one.File.Pile, number, StringComparison.OrdinalIgnoreCase));
        if (attached is null) return new(null, null);
        if (pile is not { Standing: [.., var part] })
            return new(null, $"{attached.File.FileName} is attached, but no installation stands for this pile, so it is not known which casing built it. The log is read once one stands.");
        using Stream bytes = uploads.Open(permit.Site, attached.File.Upload);
        TableReading<ReadLog> read = PileLogReader.Read(bytes, ReadingChoices.For(settings, Instant.FromDateTimeOffset(clock.GetUtcNow())), cancellation);
        if (read.Rows.Select(row => row.Value).FirstOrDefault(one => AttachFile.IsOf(one, number)) is not { } log)
            return new(null, $"{attached.File.FileName} is attached, but with the site's settings of today it cannot be read as a log of this pile.");
        return View(site, settings, pile, part, new(attached.Sequence, false, attached.File.FileName, log.Log, log.Barge, log.Casing), pile.Pile.TopLevelMetres);
    }

    private static PileLogAnswer View(DerivedSite site, SiteSettings settings, PileJudgement pile, StandingPart part, Source source, double cutOff)
    {
        Installation recorded = part.Installation.Recorded;
        if (settings.FindZone(pile.Pile.Zone) is not { } zone) return new(null, $"The settings of the site hold no zone {pile.Pile.Zone}.");
        LogSetting setting = new StandingLogs(site.History).SettingOf(
            pile.Pile, zone, recorded.Barge, recorded.Casing, part.Installation.Log?.FirstSample ?? source.Log.FirstSample, cutOff);
        if (setting.Context is not { } context) return new(null, $"{source.FileName} {(source.Counts ? "counts for this pile" : "is attached")}, but it cannot be read. {setting.Why}");
        LogInterpretation told = LogInterpreter.Read(source.Log, context);
        return new(
            new PileLogView(
                pile.Pile.Number, source.Record, source.Counts, source.FileName, source.Log, told, context, settings.TimeZone, settings.LevelDatum.Name, setting.Calibration,
                [.. Notes(source, told, context, recorded, part, zone)]),
            null);
    }

    private static IEnumerable<string> Notes(Source source, LogInterpretation told, LogContext context, Installation recorded, StandingPart part, Zone zone)
    {
        if (source.Log.SandMeasure == SandMeasure.DistanceFromTop && context.CasingLengthMetres is null)
            yield return $"This log measures the sand from the casing's top, and no calibration of casing {recorded.Casing} of {recorded.Barge} that held then says what the gauge shows in the empty casing, which is the casing's length: sand and diameters are not told.";
        if (context.VolumeChangeFactor is null)
            yield return $"The site's settings state no volume-change factor of {zone.SandSource}: diameters are not told.";
        if ((source.Barge is { } named && !string.Equals(named, recorded.Barge, StringComparison.OrdinalIgnoreCase)) || (source.Casing is { } other && other != recorded.Casing))
            yield return $"The log names {(source.Casing is { } written ? $"casing {written} of " : "")}{source.Barge ?? recorded.Barge}, the record casing {recorded.Casing} of {recorded.Barge}; it is read with the inner diameter of the record's casing.";
        if (Math.Abs((told.BaseLevelMetres - part.Installation.Recorded.TipLevelMetres) ?? 0) > LevelsApartMetres)
            yield return FormattableString.Invariant($"The tip is at {told.BaseLevelMetres:0.00} m by the log and at {recorded.TipLevelMetres:0.00} m on the record.");
        if (Math.Abs((told.TopLevelMetres - recorded.TopLevelMetres) ?? 0) > LevelsApartMetres)
            yield return FormattableString.Invariant($"The top is at {told.TopLevelMetres:0.00} m by the log and at {recorded.TopLevelMetres:0.00} m on the record.");
    }

    private static IEnumerable<string> NotJoined(DerivedSite site, PileJudgement pile)
    {
        HashSet<long> standing = [.. pile.Standing.Select(part => part.Installation.Sequence)];
        foreach (DerivedLog log in site.Logs)
        {
            LoggedPile said = log.Row.Value;
            if (log.Join is { Outcome: LogJoinOutcome.NumberDisagrees or LogJoinOutcome.RecordDisagrees, Installation: { } installation } && standing.Contains(installation))
            {
                yield return log.Join.Outcome == LogJoinOutcome.NumberDisagrees
                    ? $"The log of record {log.Row.Sequence} was made by this barge and casing in the time of record {installation}, but names pile {said.PileNumber}. It is not joined and not judged by."
                    : $"The log of record {log.Row.Sequence} was made by this barge and casing in the time of record {installation}, but carries the identifier {said.RecordId} of another record. It is not joined and not judged by.";
            }
            else if (log.Join.Outcome is LogJoinOutcome.NoInstallation or LogJoinOutcome.SeveralInstallations && string.Equals(said.PileNumber, pile.Pile.Number, StringComparison.OrdinalIgnoreCase))
            {
                yield return $"The log of record {log.Row.Sequence} names this pile, but {(log.Join.Outcome == LogJoinOutcome.NoInstallation ? $"{said.Barge} recorded no installation for its casing and time" : "reaches over several installations")}. It is not joined and not judged by.";
            }
        }
    }

    private sealed record Source(long Record, bool Counts, string FileName, PileLog Log, string? Barge, int? Casing);
}
