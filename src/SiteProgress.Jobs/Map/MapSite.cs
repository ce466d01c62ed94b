using System.Globalization;
using System.Text.Json;
using Npgsql;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Jobs.Map;

/// <summary>What the map needs of a site beside its piles.</summary>
/// <param name="Sequence">The last record the derived state follows from.</param>
/// <param name="Tag">Tells one state from the next: last record and rules.</param>
/// <param name="Settings">Settings in force.</param>
/// <param name="Service">The way between the frames by the adjustment in force; null before the first.</param>
/// <param name="ControlPoints">The marks that adjustment rests on.</param>
/// <param name="Drawing">The site drawing, GeoJSON in longitude and latitude.</param>
internal sealed record MapSite(long Sequence, string Tag, SiteSettings Settings, CoordinateService? Service, IReadOnlyList<ControlPoint> ControlPoints, string? Drawing)
{
    /// <summary>Reads it.</summary>
    /// <exception cref="InvalidOperationException">The site was not opened: no permit is made for such a site.</exception>
    public static async Task<MapSite> ReadAsync(NpgsqlConnection connection, int site, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = new(
            "select sequence, rules_version, settings::text, adjustment::text, drawing::text from derived.site_state where site = $1", connection);
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = site });
        await using NpgsqlDataReader reader = await command.ExecuteReaderAsync(cancellation);
        if (!await reader.ReadAsync(cancellation) || reader.IsDBNull(2)) throw new InvalidOperationException($"Site {site} was never opened.");
        long sequence = reader.GetInt64(0);
        AdjustmentBody? adopted = reader.IsDBNull(3) ? null : JsonSerializer.Deserialize<AdjustmentBody>(reader.GetString(3), RecordJson.Options)!;
        return new MapSite(
            sequence,
            string.Create(CultureInfo.InvariantCulture, $"{sequence}-{reader.GetInt32(1)}"),
            JsonSerializer.Deserialize<SiteSettings>(reader.GetString(2), RecordJson.Options)!,
            adopted is null ? null : new SiteFrames([adopted]).Current,
            adopted?.ControlPoints ?? [],
            reader.IsDBNull(4) ? null : reader.GetString(4));
    }
}
