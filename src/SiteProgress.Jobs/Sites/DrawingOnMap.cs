using System.Text.Json.Nodes;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;

namespace SiteProgress.Jobs.Sites;

/// <summary>The site drawing, kept in site-grid metres, as GeoJSON in longitude and latitude (RFC 7946) for the map.</summary>
internal static class DrawingOnMap
{
    public static string? Of(DerivedSite derived)
    {
        if (derived.History.Drawing is not { } drawing || derived.Frames is not { } frames) return null;
        JsonNode? root = JsonNode.Parse(drawing);
        Convert(root, frames.Current);
        return root?.ToJsonString();
    }

    private static void Convert(JsonNode? node, CoordinateService service)
    {
        switch (node)
        {
            case JsonObject members:
                foreach ((string name, JsonNode? value) in members.ToArray())
                {
                    if (name == "coordinates") members[name] = Positions(value, service);
                    else if (name != "properties") Convert(value, service);
                }

                break;
            case JsonArray items:
                foreach (JsonNode? item in items) Convert(item, service);
                break;
        }
    }

    private static JsonArray? Positions(JsonNode? node, CoordinateService service)
    {
        if (node is not JsonArray items) return null;
        if (items.Count < 2 || items[0] is not JsonValue) return new JsonArray(items.Select(item => (JsonNode?)Positions(item, service)).ToArray());
        GeographicCoordinate at = service.ToGeographic(new SiteCoordinate(items[0]!.GetValue<double>(), items[1]!.GetValue<double>()));
        return new JsonArray(at.LongitudeDegrees, at.LatitudeDegrees);
    }
}
