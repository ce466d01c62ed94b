using NodaTime;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Matching;

/// <summary>How a recorded log stands to the recorded installations.</summary>
public enum LogJoinOutcome
{
    /// <summary>It is the log of an installation.</summary>
    Joined = 1,

    /// <summary>No installation of its barge and casing is recorded for its time.</summary>
    NoInstallation = 2,

    /// <summary>The installation of its barge, casing and time carries another pile number than the log.</summary>
    NumberDisagrees = 3,

    /// <summary>The record identifier of the log is that of another installation.</summary>
    RecordDisagrees = 4,

    /// <summary>Several installations of its barge fall into its time.</summary>
    SeveralInstallations = 5,

    /// <summary>A log recorded later is of the same installation and counts in its place.</summary>
    Superseded = 6,
}

/// <summary>How one log stands to the installations.</summary>
/// <param name="Outcome">The outcome.</param>
/// <param name="Installation">Sequence of the installation of its barge, casing and time; null where there is none or there are several.</param>
/// <param name="Against">What disagrees: the pile number or the record of that installation, or how many there are.</param>
public sealed record LogJoin(LogJoinOutcome Outcome, long? Installation, string? Against = null);

/// <summary>The log that counts for an installation.</summary>
/// <param name="Sequence">Sequence of the log's record.</param>
/// <param name="Sha256">Hash of its samples.</param>
/// <param name="FirstSample">Time of its first sample, the clock put right.</param>
public sealed record JoinedLog(long Sequence, string Sha256, Instant FirstSample);

/// <summary>
/// Joins recorded logs to recorded installations by barge, casing and time: the log and the installation share at least half of
/// the shorter of their spans (common practice, no source). A pile number or a record identifier that the log states must
/// agree; where it does not, nothing is joined and both are shown.
/// </summary>
public static class LogJoins
{
    private const double LeastShare = 0.5;

    /// <summary>An installation takes no longer than this.</summary>
    private static readonly Duration Longest = Duration.FromHours(24);

    /// <summary>Joins the logs, in their order.</summary>
    /// <param name="logs">Logs that count, with the sequence of their records, clocks put right.</param>
    /// <param name="installations">Installations that count.</param>
    /// <param name="matches">Which piles they are, in the same order.</param>
    public static IReadOnlyList<LogJoin> Of(
        IReadOnlyList<(long Sequence, LoggedPile Log)> logs, IReadOnlyList<LocatedInstallation> installations, IReadOnlyList<InstallationMatch> matches)
    {
        ArgumentNullException.ThrowIfNull(logs);
        ArgumentNullException.ThrowIfNull(installations);
        ArgumentNullException.ThrowIfNull(matches);
        if (logs.Count == 0) return [];
        Span[] spans = [.. installations.Zip(matches)
            .Where(one => one.Second.Outcome is not (MatchOutcome.DuplicateRecord or MatchOutcome.IdentifierReused))
            .Select(one => Span.Of(one.First, one.Second.Adopted)).OfType<Span>().OrderBy(span => span.From)];
        Dictionary<string, Span[]> byBarge = spans.GroupBy(span => span.Barge, StringComparer.OrdinalIgnoreCase).ToDictionary(group => group.Key, group => group.ToArray(), StringComparer.OrdinalIgnoreCase);
        LogJoin[] joins = [.. logs.Select(log => Join(log.Log, byBarge.GetValueOrDefault(log.Log.Barge, [])))];
        LetLastCount(logs, joins);
        return joins;
    }

    private static LogJoin Join(LoggedPile log, Span[] ofBarge)
    {
        List<Span> found = [];
        for (int index = FirstAfter(ofBarge, log.FirstSample - Longest); index < ofBarge.Length && ofBarge[index].From <= log.LastSample; index++)
        {
            Span span = ofBarge[index];
            if ((log.Casing is null || span.Casing is null || log.Casing == span.Casing) && Shares(log, span)) found.Add(span);
        }

        if (found.Count > 1 && found.Where(span => span.IsNamedBy(log)).Take(2).ToList() is [{ } named]) found = [named];
        if (found is not [{ } one]) return found.Count == 0 ? new(LogJoinOutcome.NoInstallation, null) : new(LogJoinOutcome.SeveralInstallations, null, FormattableString.Invariant($"{found.Count}"));
        if (log.PileNumber is { } number && !one.Carries(number)) return new(LogJoinOutcome.NumberDisagrees, one.Sequence, one.Number);
        return log.RecordId is { } id && one.RecordId is { } other && id != other && ofBarge.Any(span => span.RecordId == id)
            ? new(LogJoinOutcome.RecordDisagrees, one.Sequence, other)
            : new(LogJoinOutcome.Joined, one.Sequence);
    }

    private static bool Shares(LoggedPile log, Span span)
    {
        double shared = (Duration.Min(log.LastSample - log.FirstSample, Instant.Min(log.LastSample, span.To) - Instant.Max(log.FirstSample, span.From))).TotalSeconds;
        double shorter = Math.Min((log.LastSample - log.FirstSample).TotalSeconds, (span.To - span.From).TotalSeconds);
        return shared >= 0 && shared >= LeastShare * shorter;
    }

    /// <summary>Place of the first span that begins at or after a moment.</summary>
    private static int FirstAfter(Span[] spans, Instant moment)
    {
        int low = 0, high = spans.Length;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (spans[middle].From < moment) low = middle + 1;
            else high = middle;
        }

        return low;
    }

    private static void LetLastCount(IReadOnlyList<(long Sequence, LoggedPile Log)> logs, LogJoin[] joins)
    {
        Dictionary<long, int> counts = [];
        foreach (int place in Enumerable.Range(0, joins.Length).Where(place => joins[place].Outcome == LogJoinOutcome.Joined).OrderBy(place => logs[place].Sequence))
        {
            if (counts.TryGetValue(joins[place].Installation!.Value, out int before)) joins[before] = joins[before] with { Outcome = LogJoinOutcome.Superseded };
            counts[joins[place].Installation!.Value] = place;
        }
    }

    private sealed record Span(long Sequence, string Barge, int? Casing, Instant From, Instant To, string Number, string? Adopted, string? RecordId)
    {
        public static Span? Of(LocatedInstallation one, string? adopted)
        {
            Installation recorded = one.Recorded;
            return (recorded.Start ?? recorded.EndOfPenetration ?? recorded.End) is { } from && (recorded.End ?? recorded.EndOfPenetration ?? recorded.Start) is { } to && from <= to
                ? new Span(one.Sequence, recorded.Barge, recorded.Casing, from, to, recorded.PileNumber.Trim(), adopted, recorded.RecordId)
                : null;
        }

        public bool Carries(string number)
            => string.Equals(number.Trim(), Number, StringComparison.OrdinalIgnoreCase) || string.Equals(number.Trim(), Adopted, StringComparison.OrdinalIgnoreCase);

        public bool IsNamedBy(LoggedPile log) => log.RecordId is { } id ? id == RecordId : log.PileNumber is { } number && Carries(number);
    }
}
