using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Matching;

/// <summary>
/// Finds records that say again what an earlier one said: under the same sender's identifier, or under another one with
/// everything else equal. The same identifier with other content is a problem, not a duplicate.
/// </summary>
internal static class RepeatedRecords
{
    public static Dictionary<long, InstallationMatch> Find(IEnumerable<LocatedInstallation> installations)
    {
        Dictionary<long, InstallationMatch> repeats = [];
        Dictionary<(string Barge, string Id), LocatedInstallation> byIdentifier = [];
        Dictionary<Installation, LocatedInstallation> byContent = [];
        foreach (LocatedInstallation installation in installations.OrderBy(one => one.Sequence))
        {
            Installation recorded = installation.Recorded;
            if (byContent.TryGetValue(recorded with { RecordId = null }, out LocatedInstallation? same))
            {
                repeats[installation.Sequence] = Repeat(MatchOutcome.DuplicateRecord, same);
            }
            else if (recorded.RecordId is { } id && byIdentifier.TryGetValue((recorded.Barge, id), out LocatedInstallation? other))
            {
                repeats[installation.Sequence] = Repeat(MatchOutcome.IdentifierReused, other);
            }
            else
            {
                byContent[recorded with { RecordId = null }] = installation;
                if (recorded.RecordId is { } first) byIdentifier[(recorded.Barge, first)] = installation;
            }
        }

        return repeats;
    }

    private static InstallationMatch Repeat(MatchOutcome outcome, LocatedInstallation earlier)
        => new(outcome, null, null, null, null, earlier.Sequence);
}
