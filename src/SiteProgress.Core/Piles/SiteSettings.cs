using NodaTime;

namespace SiteProgress.Core.Piles;

/// <summary>What holds for one whole site until a later revision of the settings.</summary>
/// <param name="Code">Short code in addresses: small letters, digits, hyphens.</param>
/// <param name="Name">Name for people.</param>
/// <param name="Invented">True for a scenario made up for demonstration; pages and prints then say so.</param>
/// <param name="TimeZone">IANA time zone of the site.</param>
/// <param name="WorkingDayBegins">Site time at which a working day begins.</param>
/// <param name="Shifts">Shifts of the working day, in order; the first begins with it.</param>
/// <param name="ProjectedCrs">EPSG code of the site's projected CRS.</param>
/// <param name="LevelDatum">Datum of all levels.</param>
/// <param name="GridAxes">Names of the two axes of the site grid.</param>
/// <param name="PileNumberCharacters">Characters allowed in a pile number, as a character class without brackets.</param>
/// <param name="DefaultPositionUncertaintyMetres">Uncertainty (95 %) taken for a position whose record states none, metres.</param>
/// <param name="SandSources">Sand sources with their volume-change factor.</param>
/// <param name="Zones">Zones with their design.</param>
/// <param name="Barges">Barges with their casings.</param>
/// <param name="PositionNeeds">What a position must state before it is judged; null where an RTK-fixed solution is enough.</param>
/// <param name="HeightModel">The level datum above the ellipsoid, for levels taken from an antenna; null where there is none.</param>
/// <param name="LeastBiasMetres">Size below which no bias of the deviations is named, metres; null for the usual 0.03.</param>
/// <param name="LogConstants">Numbers by which logs are read, by name; null for the usual ones.</param>
/// <param name="SandAgreement">How far two accounts of one sand may differ; null where the site asks nothing.</param>
public sealed record SiteSettings(
    string Code,
    string Name,
    bool Invented,
    string TimeZone,
    LocalTime WorkingDayBegins,
    IReadOnlyList<Shift> Shifts,
    int ProjectedCrs,
    LevelDatum LevelDatum,
    GridAxes GridAxes,
    string PileNumberCharacters,
    double DefaultPositionUncertaintyMetres,
    IReadOnlyList<SandSource> SandSources,
    IReadOnlyList<Zone> Zones,
    IReadOnlyList<Barge> Barges,
    PositionNeeds? PositionNeeds = null,
    HeightModel? HeightModel = null,
    double? LeastBiasMetres = null,
    IReadOnlyDictionary<string, double>? LogConstants = null,
    SandAgreement? SandAgreement = null)
{
    /// <summary>The zone with this code, or null.</summary>
    public Zone? FindZone(string code)
        => Zones.FirstOrDefault(zone => string.Equals(zone.Code, code, StringComparison.OrdinalIgnoreCase));

    /// <summary>The barge with this name, or null.</summary>
    public Barge? FindBarge(string name)
        => Barges.FirstOrDefault(barge => string.Equals(barge.Name, name, StringComparison.OrdinalIgnoreCase));

    /// <summary>The sand source with this name, or null.</summary>
    public SandSource? FindSandSource(string name)
        => SandSources.FirstOrDefault(source => string.Equals(source.Name, name, StringComparison.OrdinalIgnoreCase));
}

/// <summary>One shift of the working day.</summary>
/// <param name="Name">Name of the shift.</param>
/// <param name="Begins">Site time at which it begins.</param>
public sealed record Shift(string Name, LocalTime Begins);

/// <summary>The datum of a site's levels.</summary>
/// <param name="Name">Short name, printed beside every level.</param>
/// <param name="Description">What the datum is and where its mark stands.</param>
public sealed record LevelDatum(string Name, string Description);

/// <summary>Names of the axes of a site grid, in the order in which they are written.</summary>
/// <param name="First">Name of the first axis.</param>
/// <param name="Second">Name of the second axis.</param>
public sealed record GridAxes(string First, string Second);
