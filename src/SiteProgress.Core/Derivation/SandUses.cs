using SiteProgress.Core.Checks;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;
using SiteProgress.Core.Records;

namespace SiteProgress.Core.Derivation;

/// <summary>The sand that installations used, by the source of their zone; of one that is no pile's, the source its barge last took over.</summary>
internal static class SandUses
{
    public static IReadOnlyList<SandUse> Of(SiteHistory history, LocatedInstallation[] located, IReadOnlyList<InstallationMatch> matches, PileJudgement[] judged)
    {
        SiteSettings settings = history.Settings!;
        Dictionary<string, string> zones = judged.ToDictionary(pile => pile.Pile.Number, pile => pile.Pile.Zone, StringComparer.OrdinalIgnoreCase);
        Dictionary<long, double> logs = judged.SelectMany(pile => pile.Logs)
            .Where(log => log.Figures?.SandLeftCubicMetres is not null)
            .ToDictionary(log => log.Part.Installation.Sequence, log => log.Figures!.SandLeftCubicMetres!.Value);
        ILookup<string, SandDelivery> loads = history.Deliveries.Select(row => row.Value).Where(line => line is { Barge: not null, Entry: SandEntry.Delivered })
            .OrderBy(line => line.At).ToLookup(line => line.Barge!, StringComparer.OrdinalIgnoreCase);
        List<SandUse> uses = [];
        for (int index = 0; index < located.Length; index++)
        {
            Installation recorded = located[index].Recorded;
            if (matches[index].Outcome == MatchOutcome.DuplicateRecord || recorded.End is not { } end) continue;
            string? zone = matches[index].Adopted is { } adopted ? zones.GetValueOrDefault(adopted) : null;
            string? source = zone is null ? loads[recorded.Barge].LastOrDefault(load => load.At <= end)?.Source : settings.FindZone(zone)?.SandSource;
            if (source is null) continue;
            uses.Add(new SandUse(end, settings.FindBarge(recorded.Barge)?.Name ?? recorded.Barge, source, recorded.SandInCasing, logs.TryGetValue(located[index].Sequence, out double log) ? log : null));
        }

        return uses;
    }
}
