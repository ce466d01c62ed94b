using System.Text.Json;
using NodaTime.Text;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Records;

namespace SiteProgress.Exchange.HandOver;

/// <summary>
/// The as-built piles as GeoJSON (RFC 7946): a point a pile that stands, longitude and latitude in degrees on the datum of the
/// site's projected CRS, which the member <c>note</c> names, as the standard's own WGS 84 may differ from it by metres.
/// </summary>
public static class AsBuiltFeatures
{
    /// <summary>Writes the collection; piles without a position are left out.</summary>
    /// <param name="output">Where to; it is not closed.</param>
    /// <param name="site">The site as derived from its records.</param>
    public static void Write(Stream output, DerivedSite site)
    {
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(site);
        using Utf8JsonWriter json = new(output);
        json.WriteStartObject();
        json.WriteString("type", "FeatureCollection");
        if (site.Frames is { } frames) json.WriteString("note", $"Coordinates on {frames.Current.Crs.DatumName}; see the read-me file of the package.");
        json.WriteStartArray("features");
        foreach (DerivedPile pile in site.Piles)
        {
            if (pile is { AsBuilt: { } there, Judgement.Position: { } position } && site.Frames is { } by)
                Feature(json, pile, position, by.Current.Crs.Unproject(there));
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Feature(Utf8JsonWriter json, DerivedPile pile, JudgedPosition position, GeographicCoordinate at)
    {
        json.WriteStartObject();
        json.WriteString("type", "Feature");
        json.WriteStartObject("geometry");
        json.WriteString("type", "Point");
        json.WriteStartArray("coordinates");
        json.WriteNumberValue(Math.Round(at.LongitudeDegrees, 9));
        json.WriteNumberValue(Math.Round(at.LatitudeDegrees, 9));
        json.WriteEndArray();
        json.WriteEndObject();
        json.WriteStartObject("properties");
        json.WriteString("number", pile.Judgement.Pile.Number);
        json.WriteString("zone", pile.Judgement.Pile.Zone);
        json.WriteString("state", NameWords.Of(pile.Treatment.State));
        if (pile.Completed is { } completed) json.WriteString("workingDay", LocalDatePattern.Iso.Format(completed.Day));
        json.WriteNumber("radialDeviationMetres", Math.Round(position.Deviation.RadialMetres, 4));
        Number(json, "topLevelMetres", pile.Judgement.AsBuiltTopLevelMetres);
        Number(json, "tipLevelMetres", pile.Judgement.AsBuiltTipLevelMetres);
        Number(json, "meanDiameterMetres", pile.Judgement.MeanDiameterMetres);
        json.WriteEndObject();
        json.WriteEndObject();
    }

    private static void Number(Utf8JsonWriter json, string name, double? value)
    {
        if (value is { } number && double.IsFinite(number)) json.WriteNumber(name, Math.Round(number, 4));
    }
}
