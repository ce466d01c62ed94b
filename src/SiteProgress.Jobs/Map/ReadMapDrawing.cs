using System.Text.Json.Nodes;
using Npgsql;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Access;

namespace SiteProgress.Jobs.Map;

/// <summary>What the map draws beside the piles: the site drawing, the zones, the control points and where each barge was last.</summary>
public sealed class ReadMapDrawing(NpgsqlDataSource store)
{
    /// <summary>A drawing for the map.</summary>
    /// <param name="Tag">Tells one drawing from the next.</param>
    /// <param name="GeoJson">
    /// A feature collection in longitude and latitude (RFC 7946) with <c>kind</c> and <c>name</c> for each feature; <c>residualsTimesTooLong</c>
    /// says how many times longer than the ground the residuals of control points are drawn.
    /// </param>
    public sealed record Drawing(string Tag, string GeoJson);

    /// <summary>Reads the drawing.</summary>
    [Needs(Right.See)]
    public async Task<Drawing> RunAsync(Permit permit, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        await using NpgsqlConnection connection = await store.OpenConnectionAsync(cancellation);
        MapSite site = await MapSite.ReadAsync(connection, permit.Site, cancellation);
        JsonArray features = [];
        JsonObject drawing = new() { ["type"] = "FeatureCollection", ["features"] = features };
        AddDrawing(site, features);
        if (site.Service is { } service)
        {
            AddZones(site, service, features);
            await AddBargesAsync(connection, permit.Site, site.Settings, service, features, cancellation);
            await AddUnplacedAsync(connection, permit.Site, features, cancellation);
            double times = ControlDrawing.TimesTooLong(site.ControlPoints, service);
            foreach (JsonObject mark in ControlDrawing.Features(site.ControlPoints, service, times)) features.Add(mark);
            drawing["residualsTimesTooLong"] = times;
        }

        return new Drawing(site.Tag, drawing.ToJsonString());
    }

    private static void AddDrawing(MapSite site, JsonArray features)
    {
        if (site.Drawing is null || JsonNode.Parse(site.Drawing)?["features"] is not JsonArray drawn) return;
        foreach (JsonNode? feature in drawn)
        {
            if (feature?["geometry"] is not JsonObject geometry) continue;
            JsonObject? properties = feature["properties"] as JsonObject;
            string? name = Text(properties?["name"]);
            features.Add(MapFeature.Of(Text(properties?["kind"]) ?? KindOf(geometry, name, site.Settings), name, geometry.DeepClone()));
        }
    }

    /// <summary>A drawing that names no kinds still shows zones as zones and solid outlines as structures.</summary>
    private static string KindOf(JsonObject geometry, string? name, SiteSettings settings)
    {
        if (ZoneNamed(name, settings) is not null) return "zone";
        return Text(geometry["type"]) is "Polygon" or "MultiPolygon" ? "structure" : "line";
    }

    private static Zone? ZoneNamed(string? name, SiteSettings settings)
        => name is not null && name.StartsWith("zone ", StringComparison.OrdinalIgnoreCase) ? settings.FindZone(name[5..].Trim()) : null;

    private static void AddZones(MapSite site, CoordinateService service, JsonArray features)
    {
        HashSet<string> drawn = features.Select(feature => ZoneNamed(Text(feature!["properties"]!["name"]), site.Settings)?.Code).OfType<string>().ToHashSet();
        foreach (Zone zone in site.Settings.Zones.Where(zone => zone.Outline.Count > 2 && !drawn.Contains(zone.Code)))
        {
            ProjectedCoordinate[] corners = zone.Outline.Select(corner => service.ToProjected(new SiteCoordinate(corner[0], corner[1]))).ToArray();
            features.Add(MapFeature.Of("zone", "zone " + zone.Code, Polygon(corners, service)));
        }
    }

    private static async Task AddBargesAsync(
        NpgsqlConnection connection, int site, SiteSettings settings, CoordinateService service, JsonArray features, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = new(
            """
            select distinct on (barge) barge, casing, heading, heading_north, latitude, longitude
            from derived.installation
            where site = $1 and heading is not null and casing is not null and latitude is not null and ended_at is not null and adopted is not null
            order by barge, ended_at desc, sequence desc
            """,
            connection);
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = site });
        await using NpgsqlDataReader reader = await command.ExecuteReaderAsync(cancellation);
        while (await reader.ReadAsync(cancellation))
        {
            Barge? barge = settings.FindBarge(reader.GetString(0));
            Casing? casing = barge?.Casings.FirstOrDefault(one => one.Number == reader.GetInt32(1));
            if (barge?.Hull is not { } hull || casing is null) continue;
            GeographicCoordinate at = new(reader.GetDouble(4), reader.GetDouble(5));
            North? north = reader.IsDBNull(3) ? null : (North)reader.GetInt16(3);
            double heading = BargeOutline.GridHeading(reader.GetDouble(2), north, service, at);
            features.Add(MapFeature.Of("barge", barge.Name, Polygon(BargeOutline.Of(service.ToProjected(at), casing, hull, heading), service)));
        }
    }

    /// <summary>
    /// Installations on no planned pile, near enough to the design to lie on its map: trial piles, and those whose match waits for
    /// a decision. What was recorded in another frame lies elsewhere on the earth and is only counted.
    /// </summary>
    private static async Task AddUnplacedAsync(NpgsqlConnection connection, int site, JsonArray features, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = new(
            """
            select i.recorded_number, i.waits_for_decision, i.latitude, i.longitude
            from derived.installation i,
                 (select min(latitude) - 0.01 as south, max(latitude) + 0.01 as north, min(longitude) - 0.02 as west, max(longitude) + 0.02 as east
                  from derived.pile where site = $1) area
            where i.site = $1 and (i.waits_for_decision or i.match = $2)
              and i.latitude between area.south and area.north and i.longitude between area.west and area.east
            order by i.sequence
            """,
            connection);
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = site });
        command.Parameters.Add(new NpgsqlParameter<short> { TypedValue = (short)MatchOutcome.Trial });
        await using NpgsqlDataReader reader = await command.ExecuteReaderAsync(cancellation);
        while (await reader.ReadAsync(cancellation))
        {
            string name = reader.GetString(0) + (reader.GetBoolean(1) ? ", waits for a decision" : ", trial");
            JsonArray position = new(reader.GetDouble(3), reader.GetDouble(2));
            features.Add(MapFeature.Of("unplaced", name, new JsonObject { ["type"] = "Point", ["coordinates"] = position }));
        }
    }

    private static JsonObject Polygon(ProjectedCoordinate[] corners, CoordinateService service)
    {
        GeographicCoordinate[] ring = new GeographicCoordinate[corners.Length];
        service.ProjectedToGeographic(corners, ring);
        JsonArray positions = new(ring.Select(corner => (JsonNode)new JsonArray(corner.LongitudeDegrees, corner.LatitudeDegrees)).ToArray());
        return new JsonObject { ["type"] = "Polygon", ["coordinates"] = new JsonArray(positions) };
    }

    private static string? Text(JsonNode? node) => node is JsonValue value && value.TryGetValue(out string? text) ? text : null;
}
