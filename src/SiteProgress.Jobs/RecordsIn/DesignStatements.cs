using NodaTime;
using SiteProgress.Core.Records;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>What a pile schedule is recorded to say of itself as a revision, from what a person chose and what is in the design.</summary>
internal static class DesignStatements
{
    /// <summary>The upload with its statement, what was taken as read, and why it cannot stand.</summary>
    public static ReadUpload Put(ReadUpload read, SiteHistory history, DesignChoice choice, Instant now)
    {
        if (read.Content != BatchContent.PlannedPiles || read.Refused) return read;
        HashSet<string> planned = new(history.Planned.Select(row => row.Value.Number), StringComparer.OrdinalIgnoreCase);
        PilePlannedBody[] rows = [.. read.Rows.OfType<PilePlannedBody>()];
        DesignScope scope = choice.Scope ?? DesignScope.Amends;
        bool revises = rows.Any(row => planned.Contains(row.Pile.Number)) || (scope != DesignScope.Amends && planned.Count > 0);
        DateTimeZone zone = DateTimeZoneProviders.Tzdb.GetZoneOrNull(history.Settings!.TimeZone) ?? DateTimeZone.Utc;
        Instant? from = choice.FromBeginning ? null
            : choice.From is { } said ? said.InZoneLeniently(zone).ToInstant()
            : revises ? Instant.FromUnixTimeSeconds(now.ToUnixTimeSeconds())
            : null;
        string[]? zones = scope == DesignScope.Zones ? [.. rows.Select(row => row.Pile.Zone).Distinct(StringComparer.OrdinalIgnoreCase).Order(StringComparer.Ordinal)] : null;
        return read with
        {
            Design = new DesignStatement(scope, from, choice.Name, zones),
            RevisesDesign = revises,
            DesignRefusal = from > now
                ? $"The revision would be in force from {DesignChoice.Words(from.Value, zone)}, which is yet to come. Expected a moment up to now: record it when it comes into force."
                : null,
            Assumptions = revises ? [.. read.Assumptions, .. Taken(choice, from, zone)] : read.Assumptions,
        };
    }

    private static IEnumerable<string> Taken(DesignChoice choice, Instant? from, DateTimeZone zone)
    {
        if (choice.Scope is null) yield return "The schedule adds and changes piles; piles that it does not name stay in the design.";
        if (!choice.FromBeginning && choice.From is null && from is { } now)
            yield return $"The revision is in force from {DesignChoice.Words(now, zone)}, when it was read: piles built before are judged by the design they were built by.";
    }
}
