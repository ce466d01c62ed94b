using SiteProgress.Core.Coordinates.Definitions;

namespace SiteProgress.Core.Coordinates;

/// <summary>A projected coordinate reference system (ISO 19111) that this software computes to survey accuracy.</summary>
/// <remarks>
/// Inside the software its coordinates are metres, east and north positive (<see cref="ProjectedCoordinate"/>). The unit, order and
/// sense in which the system is written are kept here, and <see cref="FromWritten"/> and <see cref="ToWritten"/> are the only crossing.
/// </remarks>
public sealed class ProjectedCrs
{
    private ProjectedCrs(int epsgCode, string wkt, ProjectedDefinition definition, IProjection projection)
    {
        EpsgCode = epsgCode;
        WellKnownText = wkt;
        Name = definition.Name;
        GeographicName = definition.GeographicName;
        DatumName = definition.DatumName;
        Ellipsoid = definition.Ellipsoid;
        PrimeMeridian = definition.PrimeMeridian;
        Unit = definition.Unit;
        FirstAxis = definition.FirstAxis;
        SecondAxis = definition.SecondAxis;
        AxesAreStated = definition.AxesAreStated;
        Projection = projection;
    }

    /// <summary>The system's number in the EPSG register; 0 for a definition without one.</summary>
    public int EpsgCode { get; }

    /// <summary>The system's name.</summary>
    public string Name { get; }

    /// <summary>The definition it was made from.</summary>
    public string WellKnownText { get; }

    /// <summary>Name of the geographic system on the same datum, which every latitude and longitude of this system belongs to.</summary>
    public string GeographicName { get; }

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

    /// <summary>False where the definition names no axes and easting, northing was assumed.</summary>
    public bool AxesAreStated { get; }

    /// <summary>The projection between this system and its geographic system.</summary>
    public IProjection Projection { get; }

    /// <summary>Makes a projected CRS from its definition.</summary>
    /// <param name="epsgCode">The EPSG code under which the definition was found; 0 for a definition that was pasted in.</param>
    /// <param name="wkt">WKT 1 as the store's table of reference systems carries it.</param>
    /// <returns>The system, or the reason why it is refused, in words for a surveyor.</returns>
    public static ProjectedCrsResult FromWkt(int epsgCode, string wkt)
    {
        ArgumentNullException.ThrowIfNull(wkt);
        var (definition, reason) = DefinitionReader.Read(wkt);
        if (definition is null) return ProjectedCrsResult.Refused(reason!);
        if (epsgCode != 0 && definition.EpsgCode is { } stated && stated != epsgCode)
            return ProjectedCrsResult.Refused($"The definition says that it is EPSG:{stated}, not EPSG:{epsgCode}.");
        var (projection, refusal) = ProjectionFactory.Create(definition);
        return projection is null
            ? ProjectedCrsResult.Refused(refusal!)
            : ProjectedCrsResult.Made(new(epsgCode, wkt, definition, projection));
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
