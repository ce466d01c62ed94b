using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Jobs.Sites;

/// <summary>Proposed settings worked out: what differs, what it changes, and what is wrong with them.</summary>
/// <param name="Settings">The settings as they would be; null where the text cannot be read.</param>
/// <param name="Problems">Why they cannot come into force, a sentence each.</param>
/// <param name="Changes">What differs from the settings in force.</param>
/// <param name="Effect">What it changes, pile by pile; null where there are problems or nothing differs, and until it was asked for.</param>
/// <param name="Hash">SHA-256 of the settings, lower-case hexadecimal: what a decision covers.</param>
/// <param name="InForceSince">Sequence of the record by which the settings in force came into force.</param>
public sealed record WorkedOutSettings(
    SiteSettings? Settings, IReadOnlyList<string> Problems, IReadOnlyList<SettingsChange> Changes, SettingsEffect? Effect, string Hash, long InForceSince)
{
    /// <summary>True where something belongs to the contract, so that the owner's representative approves it first.</summary>
    public bool NeedsApproval => Changes.Any(change => change.IsContract);

    /// <summary>True where they can be recorded.</summary>
    public bool CanBeRecorded => Settings is not null && Problems.Count == 0 && Changes.Count > 0;

    /// <summary>The same with what it changes, for whoever looks at it: the site is derived once more, which recording has no need of.</summary>
    internal WorkedOutSettings WithEffect(DerivedSite site) => CanBeRecorded ? this with { Effect = SettingsEffect.Of(site, Settings!) } : this;
}

/// <summary>Reads and compares proposed settings.</summary>
internal static class SettingsProposalWork
{
    /// <summary>Works out a text in the form of the settings file.</summary>
    public static WorkedOutSettings WorkOut(DerivedSite site, string text)
    {
        SiteSettings inForce = site.History.Settings!;
        long since = site.History.SettingsSince;
        (SiteSettings? settings, string? refusal) = SettingsFile.Read(text);
        if (settings is null) return new WorkedOutSettings(null, [refusal!], [], null, "", since);
        List<string> problems = [.. SettingsProblems.Of(settings)];
        if (problems.Count == 0) problems.AddRange(Impossible(site, inForce, settings));
        if (problems.Count > 0) return new WorkedOutSettings(settings, problems, [], null, "", since);
        return WorkOut(site, settings);
    }

    /// <summary>Works out settings that were read before.</summary>
    public static WorkedOutSettings WorkOut(DerivedSite site, SiteSettings settings)
    {
        IReadOnlyList<SettingsChange> changes = SettingsDifference.Between(site.History.Settings!, settings);
        return new WorkedOutSettings(settings, [], changes, null, HashOf(settings), site.History.SettingsSince);
    }

    /// <summary>What a decision covers.</summary>
    public static string HashOf(SiteSettings settings) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(JsonSerializer.Serialize(settings, RecordJson.Options))));

    /// <summary>What stays for the life of a site, and what records stand on.</summary>
    private static IEnumerable<string> Impossible(DerivedSite site, SiteSettings was, SiteSettings now)
    {
        if (now.Code != was.Code) yield return $"code: it stays '{was.Code}' for the life of the site.";
        if (now.ProjectedCrs != was.ProjectedCrs) yield return $"projectedCrs: it stays {was.ProjectedCrs}, in which the site was opened; another one comes with an adjustment of the site grid.";
        if (now.Invented != was.Invented) yield return "invented: it stays as it was when the site was opened.";
        foreach (Zone gone in was.Zones.Where(zone => now.FindZone(zone.Code) is null))
        {
            int planned = site.Piles.Count(pile => string.Equals(pile.Judgement.Pile.Zone, gone.Code, StringComparison.OrdinalIgnoreCase));
            if (planned > 0) yield return $"zones: zone {gone.Code} is left out, and {planned} planned piles lie in it.";
        }

        foreach (IGrouping<(string Barge, int? Casing), DerivedInstallation> used in site.Installations.GroupBy(one => (one.Located.Recorded.Barge ?? "", one.Located.Recorded.Casing)))
        {
            (string barge, int? casing) = used.Key;
            if (was.FindBarge(barge) is not { } known) continue;
            if (now.FindBarge(barge) is not { } kept) yield return $"barges: {barge} is left out, and {used.Count()} installations of its casing {casing} are on record.";
            else if (casing is { } number && known.Casings.Any(one => one.Number == number) && kept.Casings.All(one => one.Number != number))
                yield return $"barges: casing {number} of {barge} is left out, and {used.Count()} installations by it are on record.";
        }
    }
}
