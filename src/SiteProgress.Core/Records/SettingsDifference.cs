using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Records;

/// <summary>One thing in which two settings of a site differ.</summary>
/// <param name="What">What it is, from the whole to the part, in words.</param>
/// <param name="Was">Its value before, as the settings file writes it; null where there was none.</param>
/// <param name="Now">Its value after; null where there is none any more.</param>
/// <param name="IsContract">True where it belongs to the contract, so that the owner's representative approves it.</param>
public sealed record SettingsChange(string What, string? Was, string? Now, bool IsContract);

/// <summary>
/// Tells two settings of a site apart, thing by thing. Zones, barges, casings, sand sources and shifts are held against their
/// namesakes, whatever their order.
/// </summary>
public static class SettingsDifference
{
    private static readonly Dictionary<string, (string Word, string Key)> Lists = new(StringComparer.Ordinal)
    {
        ["zones"] = ("zone", "code"), ["barges"] = ("barge", "name"), ["casings"] = ("casing", "number"),
        ["sandSources"] = ("sand source", "name"), ["shifts"] = ("shift", "name"),
    };

    /// <summary>Parts of a zone that are the site's own and no part of the contract; so is all that is called an alert.</summary>
    private static readonly HashSet<string> OwnOfZone = new(StringComparer.Ordinal) { "name", "outline", "logConstants" };

    /// <summary>What differs, in the order of the settings file.</summary>
    public static IReadOnlyList<SettingsChange> Between(SiteSettings was, SiteSettings now)
    {
        ArgumentNullException.ThrowIfNull(was);
        ArgumentNullException.ThrowIfNull(now);
        List<SettingsChange> changes = [];
        Walk([], JsonSerializer.SerializeToNode(was, RecordJson.Options), JsonSerializer.SerializeToNode(now, RecordJson.Options), changes);
        return changes;
    }

    private static void Walk(Step[] path, JsonNode? was, JsonNode? now, List<SettingsChange> changes)
    {
        if (was is JsonObject a && now is JsonObject b)
        {
            foreach (string name in a.Select(member => member.Key).Union(b.Select(member => member.Key)))
                Walk([.. path, new Step(name, Words(name))], a[name], b[name], changes);
        }
        else if (path is [.., { Name: var list }] && Lists.TryGetValue(list, out (string Word, string Key) keyed) && (was is JsonArray || now is JsonArray))
        {
            (Dictionary<string, JsonNode> before, Dictionary<string, JsonNode> after) = (ByKey(was, keyed.Key), ByKey(now, keyed.Key));
            foreach (string key in before.Keys.Union(after.Keys))
                Walk([.. path[..^1], new Step(list, $"{keyed.Word} {key}")], before.GetValueOrDefault(key), after.GetValueOrDefault(key), changes);
        }
        else if (!JsonNode.DeepEquals(was, now))
        {
            changes.Add(new SettingsChange(string.Join(", ", path.Select(step => step.Word)), Text(was), Text(now), IsContract(path)));
        }
    }

    private static bool IsContract(Step[] path) => path switch
    {
        [{ Name: "zones" }, { Name: var part }, ..] => !OwnOfZone.Contains(part) && !path.Any(step => step.Name.StartsWith("alert", StringComparison.Ordinal)),
        [{ Name: "zones" }] or [{ Name: "sandSources" }, ..] or [{ Name: "positionNeeds" }, ..] => true,
        _ => false,
    };

    private static Dictionary<string, JsonNode> ByKey(JsonNode? list, string key)
    {
        Dictionary<string, JsonNode> found = new(StringComparer.OrdinalIgnoreCase);
        foreach (JsonNode? one in list as JsonArray ?? [])
        {
            if (one is JsonObject member && member[key] is { } name) found.TryAdd(name.ToString(), member);
        }

        return found;
    }

    private static string? Text(JsonNode? node) => node switch
    {
        null => null,
        JsonValue value => value.ToString(),
        _ => node.ToJsonString(RecordJson.Options),
    };

    /// <summary>A name in words: "radialMetres" is "radial metres".</summary>
    private static string Words(string name)
    {
        StringBuilder words = new();
        foreach (char letter in name)
        {
            if (char.IsUpper(letter)) words.Append(' ');
            words.Append(char.ToLowerInvariant(letter));
        }

        return words.ToString();
    }

    private readonly record struct Step(string Name, string Word);
}
