using SiteProgress.Core.Checks;
using SiteProgress.Core.Logs;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;
using SiteProgress.Core.Records;

namespace SiteProgress.Core.Derivation;

/// <summary>A recorded log with what became of it.</summary>
/// <param name="Row">The log, its times put right.</param>
/// <param name="Join">How it stands to the installations.</param>
/// <param name="Pile">The pile its installation is taken for; null where that is not settled.</param>
/// <param name="Ended">Working day and shift in which the casing left that pile.</param>
/// <param name="Figures">What it tells; null while its pile does not stand on it.</param>
public sealed record DerivedLog(BatchRow<LoggedPile> Row, LogJoin Join, string? Pile, WorkingMoment? Ended, LogFigures? Figures)
{
    internal static IReadOnlyList<DerivedLog> Of(
        BatchRow<LoggedPile>[] rows, IReadOnlyList<LogJoin> joins, LocatedInstallation[] located, IReadOnlyList<InstallationMatch> matches,
        PileJudgement[] judged, WorkingDays days)
    {
        if (rows.Length == 0) return [];
        Dictionary<long, LogFigures> figures = judged.SelectMany(pile => pile.Logs).Where(log => log.Figures is not null)
            .ToDictionary(log => log.Part.Installation.Log!.Sequence, log => log.Figures!);
        Dictionary<long, int> places = Enumerable.Range(0, located.Length).ToDictionary(place => located[place].Sequence);
        return [.. rows.Zip(joins, (row, join) =>
        {
            int? place = join.Installation is { } installation ? places[installation] : null;
            return new DerivedLog(
                row, join,
                place is { } at && (join.Outcome is LogJoinOutcome.Joined or LogJoinOutcome.Superseded) ? matches[at].Adopted : null,
                place is { } there && located[there].Recorded.End is { } end ? days.At(end) : null,
                join.Outcome == LogJoinOutcome.Joined ? figures.GetValueOrDefault(row.Sequence) : null);
        })];
    }
}
