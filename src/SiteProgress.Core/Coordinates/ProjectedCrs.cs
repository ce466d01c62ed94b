using SiteProgress.Core.Coordinates.Definitions;

namespace SiteProgress.Core.Coordinates;

/// <summary>A projected coordinate reference system (ISO 19111) that this software computes to survey accuracy.</summary>
/// <remarks>
/// Inside the software its coordinates are metres, east and north positive (<see cref="ProjectedCoordinate"/>). The unit, order and
/// sense in which the system is written are kept here, and <see cref="FromWritten"/> and <see cref="ToWritten"/> are the only crossing.
/// </remarks>
public sealed class ProjectedCrs
{
    private ProjectedCrs(int epsgCode, string wkt, ProjectedDefinition definition, IProjection projection, RegisteredSystem? registered)
    {
        EpsgCode = epsgCode;
        WellKnownText = wkt;
        Name = definition.Name;
        GeographicName = definition.GeographicName;
        GeographicEpsgCode = definition.GeographicCode;
        DatumName = definition.DatumName;
        Ellipsoid = definition.Ellipsoid;
        PrimeMeridian = definition.PrimeMeridian;
        Unit = definition.Unit;
        FirstAxis = registered?.FirstAxis ?? definition.FirstAxis;
        SecondAxis = registered?.SecondAxis ?? definition.SecondAxis;
        AxesAreStated = definition.AxesAreStated || registered?.FirstAxis is not null;
        AreaOfUse = registered?.Area;
        Projection = projection;
    }

    /// <summary>The code under which the definition was found; 0 for a definition that was pasted in.</summary>
    public int EpsgCode { get; }

    /// <summary>The system's name.</summary>
    public string Name { get; }

    /// <summary>The definition it was made from.</summary>
    public string WellKnownText { get; }

    /// <summary>Name of the geographic system on the same datum, which every latitude and longitude of this system belongs to.</summary>
    public string GeographicName { get; }

    /// <summary>EPSG code of that geographic system; null where the definition does not give it. <see cref="DatumShifts"/> are found by it.</summary>
    public int? GeographicEpsgCode { get; }

    /// <summary>Name of the datum.</summary>
    public string DatumName { get; }

    /// <summary>The datum's ellipsoid.</summary>
    public Ellipsoid Ellipsoid { get; }

    /// <summary>The meridian the definition counts from. Longitudes in this software count from Greenwich all the same.</summary>
    public PrimeMeridian PrimeMeridian { get; }

    /// <summary>The unit coordinates of this system are written in.</summary>
    public LinearUnit Unit { get; }

    /// <summary>The axis written first.</summary>
    public CrsAxis FirstAxis { get; }

    /// <summary>The axis written second.</summary>
    public CrsAxis SecondAxis { get; }

    /// <summary>False where neither the register nor the definition names the axes and easting, northing was assumed.</summary>
    public bool AxesAreStated { get; }

    /// <summary>Where the register says that the system may be used; null for a definition that was pasted in.</summary>
    public AreaOfUse? AreaOfUse { get; }

    /// <summary>The projection between this system and its geographic system.</summary>
    public IProjection Projection { get; }

    /// <summary>Makes a projected CRS from its definition.</summary>
    /// <param name="epsgCode">
    /// The code under which the store's table carries the definition; 0 for a definition that was pasted in. With a code, the system must be
    /// one whose stored definition was found to agree with the register over its area of use.
    /// </param>
    /// <param name="wkt">WKT 1, as the store's table of reference systems carries it, or WKT 2.</param>
    /// <returns>The system, or the reason why it is refused, in words for a surveyor.</returns>
    public static ProjectedCrsResult FromWkt(int epsgCode, string wkt)
    {
        ArgumentNullException.ThrowIfNull(wkt);
        var (definition, reason) = DefinitionReader.Read(wkt);
        if (definition is null) return ProjectedCrsResult.Refused(reason!);
        if (epsgCode != 0 && definition.Code is { } stated && stated != epsgCode)
            return ProjectedCrsResult.Refused($"The definition says that it is {definition.Authority}:{stated}, not EPSG:{epsgCode}.");
        var authority = definition.Authority.Length > 0 ? definition.Authority : "EPSG";
        var registered = epsgCode == 0 ? null : RegisteredSystems.Find(authority, epsgCode);
        if (epsgCode != 0 && registered is null)
            return ProjectedCrsResult.Refused($"{authority}:{epsgCode} ({definition.Name}) is not in the register this software was checked against, so its area of use is not known.");
        if (epsgCode != 0 && RegisteredSystems.ReasonAgainst(authority, epsgCode) is { } against)
            return ProjectedCrsResult.Refused($"{authority}:{epsgCode} ({definition.Name}): {against}");
        return Make(epsgCode, wkt, definition, registered);
    }

    /// <summary>As <see cref="FromWkt"/>, without looking at what an earlier comparison found: for making that comparison.</summary>
    internal static ProjectedCrsResult FromWktUnchecked(int epsgCode, string wkt)
    {
        var (definition, reason) = DefinitionReader.Read(wkt);
        return definition is null
            ? ProjectedCrsResult.Refused(reason!)
            : Make(epsgCode, wkt, definition, RegisteredSystems.Find(definition.Authority, epsgCode));
    }

    private static ProjectedCrsResult Make(int code, string wkt, ProjectedDefinition definition, RegisteredSystem? registered)
    {
        var (projection, refusal) = ProjectionFactory.Create(definition);
        return projection is null
            ? ProjectedCrsResult.Refused(refusal!)
            : ProjectedCrsResult.Made(new(code, wkt, definition, projection, registered));
    }

    /// <summary>A geographic position on this system's own datum, projected; NaN where it cannot be. For control points given by latitude and longitude.</summary>
    public ProjectedCoordinate Project(GeographicCoordinate position)
    {
        ProjectedCoordinate projected = default;
        Projection.Forward(new(in position), new(ref projected));
        return projected;
    }

    /// <summary>The geographic position of a projected point on this system's own datum; NaN where there is none.</summary>
    public GeographicCoordinate Unproject(ProjectedCoordinate point)
    {
        GeographicCoordinate geographic = default;
        Projection.Inverse(new(in point), new(ref geographic));
        return geographic;
    }

    /// <summary>A point as this system writes it (its unit, order and sense) to metres east and north.</summary>
    public ProjectedCoordinate FromWritten(double first, double second)
    {
        double one = first * Unit.Metres * Sense(FirstAxis), two = second * Unit.Metres * Sense(SecondAxis);
        return FirstIsEastWest ? new(one, two) : new(two, one);
    }

    /// <summary>Metres east and north to the point as this system writes it: its unit, order and sense.</summary>
    public (double First, double Second) ToWritten(ProjectedCoordinate point)
    {
        double east = point.EastingMetres / Unit.Metres, north = point.NorthingMetres / Unit.Metres;
        return FirstIsEastWest
            ? (east * Sense(FirstAxis), north * Sense(SecondAxis))
            : (north * Sense(FirstAxis), east * Sense(SecondAxis));
    }

    private bool FirstIsEastWest => FirstAxis.Direction is AxisDirection.East or AxisDirection.West;

    private static double Sense(CrsAxis axis) => axis.Direction is AxisDirection.East or AxisDirection.North ? 1 : -1;
}
