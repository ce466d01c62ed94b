namespace SiteProgress.Core.Coordinates;

/// <summary>How a published rotation is meant. The two conventions have opposite signs, and taking one for the other moves points by tens of metres.</summary>
public enum RotationConvention
{
    /// <summary>No rotation: geocentric translation (EPSG 9603).</summary>
    None,

    /// <summary>Rotations turn the position vector (EPSG 9606, 1063).</summary>
    PositionVector,

    /// <summary>Rotations turn the coordinate frame (EPSG 9607, 9636).</summary>
    CoordinateFrame,
}

/// <summary>One of the two geographic systems that a shift links.</summary>
/// <param name="EpsgCode">Its code.</param>
/// <param name="Name">Its name.</param>
/// <param name="Ellipsoid">Its ellipsoid.</param>
public sealed record GeographicSystem(int EpsgCode, string Name, Ellipsoid Ellipsoid);

/// <summary>A published shift between two geographic systems, always with its name and its stated accuracy.</summary>
/// <remarks>
/// IOGP Guidance Note 7-2: geocentric translations, position vector and coordinate frame transformations and Molodensky-Badekas, in the
/// geographic two-dimensional domain (heights taken as 0 on the side one comes from) or with a height. The inverse undoes the forward
/// step exactly; it is not the forward step with signs changed, which would leave millimetres.
/// </remarks>
public sealed class DatumShift
{
    private readonly double[] matrix;
    private readonly double[] inverse;
    private readonly GeocentricCoordinate translation;
    private readonly GeocentricCoordinate pivot;

    /// <summary>Makes a shift from its published parameters.</summary>
    /// <param name="epsgCode">Code of the published transformation; 0 where it has none.</param>
    /// <param name="name">Its name, shown wherever it is used.</param>
    /// <param name="from">The system it leads from.</param>
    /// <param name="to">The system it leads to.</param>
    /// <param name="accuracyMetres">Its stated accuracy, metres.</param>
    /// <param name="convention">How the rotations are meant.</param>
    /// <param name="translation">Translation, metres.</param>
    /// <param name="rotationMicroradians">Rotations about X, Y and Z, microradians.</param>
    /// <param name="scalePartsPerMillion">Scale difference, parts per million.</param>
    /// <param name="pivot">Evaluation point of Molodensky-Badekas, metres; zero otherwise.</param>
    /// <param name="area">Where it may be used.</param>
    public DatumShift(
        int epsgCode, string name, GeographicSystem from, GeographicSystem to, double accuracyMetres, RotationConvention convention,
        GeocentricCoordinate translation, GeocentricCoordinate rotationMicroradians, double scalePartsPerMillion,
        GeocentricCoordinate pivot, AreaOfUse area)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        if (convention == RotationConvention.None && rotationMicroradians != default)
            throw new ArgumentException("A rotation needs its convention: position vector or coordinate frame.", nameof(convention));
        (EpsgCode, Name, From, To, AccuracyMetres, Area) = (epsgCode, name, from, to, accuracyMetres, area);
        (this.translation, this.pivot) = (translation, pivot);
        var sign = convention == RotationConvention.CoordinateFrame ? -1e-6 : 1e-6;
        double rx = sign * rotationMicroradians.XMetres, ry = sign * rotationMicroradians.YMetres, rz = sign * rotationMicroradians.ZMetres;
        var m = 1 + scalePartsPerMillion * 1e-6;
        matrix = [m, -m * rz, m * ry, m * rz, m, -m * rx, -m * ry, m * rx, m];
        // Inverse of m (I + [r]x): (I - [r]x + r r') / (m (1 + r.r)).
        var d = 1 / (m * (1 + rx * rx + ry * ry + rz * rz));
        inverse =
        [
            d * (1 + rx * rx), d * (rz + rx * ry), d * (-ry + rx * rz),
            d * (-rz + rx * ry), d * (1 + ry * ry), d * (rx + ry * rz),
            d * (ry + rx * rz), d * (-rx + ry * rz), d * (1 + rz * rz),
        ];
        IsNull = translation == default && rotationMicroradians == default && scalePartsPerMillion == 0;
    }

    /// <summary>Code of the published transformation; 0 where it has none.</summary>
    public int EpsgCode { get; }

    /// <summary>Name of the published transformation.</summary>
    public string Name { get; }

    /// <summary>The system it leads from.</summary>
    public GeographicSystem From { get; }

    /// <summary>The system it leads to.</summary>
    public GeographicSystem To { get; }

    /// <summary>Stated accuracy, metres.</summary>
    public double AccuracyMetres { get; }

    /// <summary>Where it may be used.</summary>
    public AreaOfUse Area { get; }

    /// <summary>True where the two datums are only declared equal within the accuracy, and nothing is shifted but the ellipsoid.</summary>
    public bool IsNull { get; }

    /// <summary>From a point in space on the first datum to the second.</summary>
    public GeocentricCoordinate Forward(GeocentricCoordinate point) => Turn(
        matrix, point.XMetres - pivot.XMetres, point.YMetres - pivot.YMetres, point.ZMetres - pivot.ZMetres,
        new(pivot.XMetres + translation.XMetres, pivot.YMetres + translation.YMetres, pivot.ZMetres + translation.ZMetres));

    /// <summary>From a point in space on the second datum back to the first.</summary>
    public GeocentricCoordinate Inverse(GeocentricCoordinate point) => Turn(
        inverse, point.XMetres - pivot.XMetres - translation.XMetres, point.YMetres - pivot.YMetres - translation.YMetres,
        point.ZMetres - pivot.ZMetres - translation.ZMetres, pivot);

    /// <summary>A position with its height above the ellipsoid from the first datum to the second.</summary>
    public (GeographicCoordinate Position, double HeightMetres) Forward(GeographicCoordinate position, double heightMetres) =>
        Forward(GeocentricCoordinate.From(From.Ellipsoid, position, heightMetres)).ToGeographic(To.Ellipsoid);

    /// <summary>A position with its height above the ellipsoid from the second datum back to the first.</summary>
    public (GeographicCoordinate Position, double HeightMetres) Inverse(GeographicCoordinate position, double heightMetres) =>
        Inverse(GeocentricCoordinate.From(To.Ellipsoid, position, heightMetres)).ToGeographic(From.Ellipsoid);

    /// <summary>Positions without height from the first datum to the second, point by point.</summary>
    public void Forward(ReadOnlySpan<GeographicCoordinate> from, Span<GeographicCoordinate> to)
    {
        if (from.Length != to.Length) throw new ArgumentException("The two spans must have the same length.");
        for (var i = 0; i < from.Length; i++) to[i] = Forward(from[i], 0).Position;
    }

    /// <summary>Positions without height from the second datum back to the first, point by point: undoes <see cref="Forward(ReadOnlySpan{GeographicCoordinate}, Span{GeographicCoordinate})"/>.</summary>
    /// <remarks>
    /// Published practice takes the height as 0 on the side one comes from, either way, which leaves millimetres there and back; <see cref="Inverse(GeographicCoordinate, double)"/>
    /// with height 0 gives that. Here the way back must find the height on the second that leads there: two corrections
    /// bring the height on the first datum to 0 within a micrometre.
    /// </remarks>
    public void Inverse(ReadOnlySpan<GeographicCoordinate> from, Span<GeographicCoordinate> to)
    {
        if (from.Length != to.Length) throw new ArgumentException("The two spans must have the same length.");
        for (var i = 0; i < from.Length; i++)
        {
            double height = 0;
            var back = Inverse(from[i], height);
            for (var step = 0; step < 2; step++)
            {
                height -= back.HeightMetres;
                back = Inverse(from[i], height);
            }

            to[i] = back.Position;
        }
    }

    private static GeocentricCoordinate Turn(double[] m, double x, double y, double z, GeocentricCoordinate add) => new(
        m[0] * x + m[1] * y + m[2] * z + add.XMetres, m[3] * x + m[4] * y + m[5] * z + add.YMetres, m[6] * x + m[7] * y + m[8] * z + add.ZMetres);
}
