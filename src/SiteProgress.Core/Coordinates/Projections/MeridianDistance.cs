namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>Distance along the meridian from the equator, and back.</summary>
/// <remarks>
/// Series in the third flattening n to order six (F. R. Helmert 1880; O. S. Adams, Latitude developments connected with geodesy and
/// cartography, 1921). Left out is less than a nanometre for any ellipsoid of the earth; the tests integrate the meridian numerically.
/// </remarks>
internal sealed class MeridianDistance
{
    private readonly double radius;
    private readonly double[] toRectifying;
    private readonly double[] toGeodetic;

    public MeridianDistance(Ellipsoid ellipsoid)
    {
        double n = ellipsoid.ThirdFlattening, n2 = n * n, n3 = n2 * n, n4 = n2 * n2, n5 = n4 * n, n6 = n3 * n3;
        radius = ellipsoid.SemiMajorMetres / (1 + n) * (1 + n2 / 4 * (1 + n2 / 16 * (1 + n2 / 4)));
        toRectifying =
        [
            -3 / 2.0 * n + 9 / 16.0 * n3 - 3 / 32.0 * n5,
            15 / 16.0 * n2 - 15 / 32.0 * n4 + 135 / 2048.0 * n6,
            -35 / 48.0 * n3 + 105 / 256.0 * n5,
            315 / 512.0 * n4 - 189 / 512.0 * n6,
            -693 / 1280.0 * n5,
            1001 / 2048.0 * n6,
        ];
        toGeodetic =
        [
            3 / 2.0 * n - 27 / 32.0 * n3 + 269 / 512.0 * n5,
            21 / 16.0 * n2 - 55 / 32.0 * n4 + 6759 / 4096.0 * n6,
            151 / 96.0 * n3 - 417 / 128.0 * n5,
            1097 / 512.0 * n4 - 15543 / 2560.0 * n6,
            8011 / 2560.0 * n5,
            293393 / 61440.0 * n6,
        ];
    }

    /// <summary>Metres from the equator, north positive.</summary>
    public double Metres(double latitude) => radius * (latitude + SineSeries.Sum(toRectifying, latitude));

    /// <summary>The latitude (radians) so many metres from the equator.</summary>
    public double Latitude(double metres)
    {
        var rectifying = metres / radius;
        return rectifying + SineSeries.Sum(toGeodetic, rectifying);
    }
}
