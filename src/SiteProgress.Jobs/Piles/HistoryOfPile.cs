using System.Globalization;
using SiteProgress.Core.Records;
using SiteProgress.Storage.Derived;

namespace SiteProgress.Jobs.Piles;

/// <summary>Tells the records of a pile in words.</summary>
internal static class HistoryOfPile
{
    /// <summary>The lines of the history, in order.</summary>
    /// <param name="records">Records that concern the pile.</param>
    /// <param name="batches">The site's batches by sequence.</param>
    /// <param name="designSequence">The schedule row in force.</param>
    /// <param name="names">Names of those who recorded.</param>
    public static IReadOnlyList<HistoryLine> Of(
        IReadOnlyList<KeptRecord> records,
        IReadOnlyDictionary<long, BatchRow> batches,
        long designSequence,
        IReadOnlyDictionary<string, string> names)
    {
        HashSet<long> own = records.Select(record => record.Batch).OfType<long>().ToHashSet();
        return records
            .Where(record => record.Body is not BatchWithdrawnBody withdrawn || own.Contains(withdrawn.WithdrawnBatch))
            .Select(record =>
            {
                long? batch = record.Body is BatchWithdrawnBody withdrawn ? withdrawn.WithdrawnBatch : record.Batch;
                BatchRow? of = batch is { } key ? batches.GetValueOrDefault(key) : null;
                return new HistoryLine(
                    record.Sequence, record.RecordedAt, names[record.RecordedBy], record.Body.Kind, What(record.Body), batch, of?.FileName,
                    Line(record.Body), Counts(record, of, designSequence), record.Body is SettingsBody or AdjustmentBody);
            })
            .ToArray();
    }

    private static bool Counts(KeptRecord record, BatchRow? batch, long designSequence)
        => record.Body is BatchWithdrawnBody
            || (batch?.WithdrawnAt is null && (record.Body is not PilePlannedBody || record.Sequence == designSequence));

    private static long? Line(RecordBody body) => body switch
    {
        PilePlannedBody planned => planned.Line,
        PileInstalledBody installed => installed.Line,
        _ => null,
    };

    private static string What(RecordBody body) => body switch
    {
        SettingsBody { First: true } => "The site was opened with its settings.",
        SettingsBody => "The settings of the site were revised.",
        AdjustmentBody adjusted => string.Create(CultureInfo.InvariantCulture, $"Adjustment {adjusted.Adjustment.Revision} of the site grid was adopted: {adjusted.Reason}"),
        BatchWithdrawnBody withdrawn => $"The batch was withdrawn: {withdrawn.Reason}",
        PilePlannedBody => "Planned by a row of a pile schedule.",
        PileInstalledBody installed => $"An installation was recorded under number {installed.Installation.PileNumber}, {installed.Installation.Barge}.",
        _ => "A record of another kind.",
    };
}
