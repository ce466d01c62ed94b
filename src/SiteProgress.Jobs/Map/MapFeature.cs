using System.Text.Json.Nodes;

namespace SiteProgress.Jobs.Map;

/// <summary>A feature of the map's drawing (RFC 7946).</summary>
internal static class MapFeature
{
    /// <summary>Makes a feature.</summary>
    /// <param name="kind">What it is; the page draws by it.</param>
    /// <param name="name">What is written beside it; null where nothing is.</param>
    /// <param name="geometry">Its geometry in longitude and latitude.</param>
    public static JsonObject Of(string kind, string? name, JsonNode geometry) => new()
    {
        ["type"] = "Feature",
        ["properties"] = name is null ? new JsonObject { ["kind"] = kind } : new JsonObject { ["kind"] = kind, ["name"] = name },
        ["geometry"] = geometry,
    };
}
