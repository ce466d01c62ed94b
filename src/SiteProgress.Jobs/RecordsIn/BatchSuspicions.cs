using System.Globalization;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Exchange;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>What looks wrong with a batch as a whole, each with its evidence; a person decides.</summary>
internal static class BatchSuspicions
{
    private const int MostPairsNamed = 10;

    /// <summary>The suspicions against a batch.</summary>
    /// <param name="read">The file as read.</param>
    /// <param name="batch">The installations of the batch, as they would be matched.</param>
    /// <param name="site">The site as it would be with the batch.</param>
    /// <param name="uptoSequence">Last record before the batch.</param>
    public static IReadOnlyList<string> Of(ReadUpload read, DerivedInstallation[] batch, DerivedSite site, long uptoSequence)
    {
        List<string> suspicions = [.. PositionSuspicions.Of(read.Rows.SelectMany(Positions).ToArray(), site, uptoSequence)];
        bool placed = suspicions.Count == 0;
        AddSwaps(batch, suspicions);
        AddRepeats(batch, suspicions);
        suspicions.AddRange(InstallationSuspicions.Of(batch, site, placed, read.Questions.Any(question => question.Kind == QuestionKind.TimeZone)));
        // Water levels that come after the piles show it as well as piles that come after the water levels.
        suspicions.AddRange(WaterSuspicions.Of(read.Content == BatchContent.WaterLevels ? site.Installations : batch, site));
        AddLogs(site.Logs.Where(log => log.Row.Batch == uptoSequence + 1).ToArray(), suspicions);
        suspicions.AddRange(DiarySuspicions.Of(read.Rows, site.History.Settings!));
        return suspicions;
    }

    private static IEnumerable<RecordedPosition> Positions(RecordBody row) => row switch
    {
        PilePlannedBody planned => [planned.Pile.Position],
        PileInstalledBody { Installation: var built } => (built.AtEndOfPenetration ?? built.TouchDown) is { } position ? [position] : [],
        PositionCheckedBody measured => [measured.Measurement.Measured],
        PenetrationTestedBody { Test.Position: { } borehole } => [borehole],
        _ => [],
    };

    /// <summary>Two records that each lie at the pile the other one names.</summary>
    private static void AddSwaps(DerivedInstallation[] batch, List<string> suspicions)
    {
        DerivedInstallation[] elsewhere = batch.Where(one => one.Match is { Outcome: MatchOutcome.SwappedNumbers, Nearest: not null }).ToArray();
        ILookup<string, DerivedInstallation> byNumber = elsewhere.ToLookup(Number, StringComparer.OrdinalIgnoreCase);
        HashSet<long> told = [];
        List<string> pairs = [];
        foreach (DerivedInstallation one in elsewhere.Where(one => !told.Contains(one.Line)))
        {
            if (byNumber[one.Match.Nearest!].FirstOrDefault(other => !told.Contains(other.Line) && string.Equals(other.Match.Nearest, Number(one), StringComparison.OrdinalIgnoreCase)) is not { } swapped) continue;
            told.Add(one.Line);
            told.Add(swapped.Line);
            pairs.Add(Say($"{Number(one)} (line {one.Line}) and {Number(swapped)} (line {swapped.Line})"));
        }

        if (pairs.Count == 0) return;
        string more = pairs.Count > MostPairsNamed ? Say($", and {pairs.Count - MostPairsNamed} pairs more") : "";
        suspicions.Add($"Pile numbers look swapped, each record lies at the pile the other one names: {string.Join("; ", pairs.Take(MostPairsNamed))}{more}.");
    }

    private static void AddRepeats(DerivedInstallation[] batch, List<string> suspicions)
    {
        int repeats = batch.Count(one => one.Match.Outcome == MatchOutcome.DuplicateRecord);
        if (repeats > 0) suspicions.Add(Say($"{repeats} of {batch.Length} rows say again what an earlier record said; they will be kept and not counted."));
        int reused = batch.Count(one => one.Match.Outcome == MatchOutcome.IdentifierReused);
        if (reused > 0) suspicions.Add(Say($"{reused} of {batch.Length} rows carry a record identifier that an earlier record carries with other content; they wait for a decision."));
    }

    /// <summary>Logs that would be no installation's, by the reason.</summary>
    private static void AddLogs(DerivedLog[] logs, List<string> suspicions)
    {
        foreach (IGrouping<LogJoinOutcome, DerivedLog> group in logs.Where(log => log.Join.Outcome is not LogJoinOutcome.Joined).GroupBy(log => log.Join.Outcome).OrderBy(group => group.Key))
        {
            DerivedLog first = group.First();
            string example = Say($"{first.Row.Value.PileNumber ?? first.Row.Value.RecordId ?? "no number"}, {first.Row.Value.Barge}{(first.Row.Value.Casing is { } casing ? Say($" casing {casing}") : "")}, line {first.Row.Line}");
            suspicions.Add(group.Key switch
            {
                LogJoinOutcome.NoInstallation => Say($"{group.Count()} of {logs.Length} logs are of no recorded installation of their barge, casing and time ({example}); they are kept, and count once such an installation is recorded."),
                LogJoinOutcome.NumberDisagrees => Say($"{group.Count()} of {logs.Length} logs name another pile than the installation of their barge, casing and time ({example}; the installation says {first.Join.Against}); they are kept and joined to none."),
                LogJoinOutcome.RecordDisagrees => Say($"{group.Count()} of {logs.Length} logs carry the record identifier of another installation than that of their barge, casing and time ({example}; the installation is {first.Join.Against}); they are kept and joined to none."),
                LogJoinOutcome.SeveralInstallations => Say($"{group.Count()} of {logs.Length} logs reach over several installations of their barge ({example}; {first.Join.Against} installations); they are kept and joined to none."),
                _ => Say($"{group.Count()} of {logs.Length} logs are of an installation for which this file holds a further one ({example}); the last counts."),
            });
        }
    }

    private static string Number(DerivedInstallation one) => one.Located.Recorded.PileNumber.Trim();

    private static string Say(FormattableString sentence) => sentence.ToString(CultureInfo.InvariantCulture);
}
