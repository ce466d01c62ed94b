using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using V = System.Runtime.Intrinsics.Vector256<double>;

namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>The transverse Mercator of <see cref="TransverseMercator"/>, four points at a time, within 20 degrees of the central meridian.</summary>
/// <remarks>
/// The same series, arranged so that no logarithm and no four-quadrant arc is needed: the footpoint's latitude differs from the conformal
/// latitude, and that from the geodetic one, by small angles, which short polynomials give to the last digit. With chi the conformal latitude
/// and v = 1 - cos(lambda), tan(xi' - chi) = sin(chi) cos(chi) v / (1 - cos(chi)^2 v). Terms beyond n^5 are below a nanometre here.
/// </remarks>
internal sealed class FastTransverseMercator
{
    /// <summary>Longitude from the central meridian up to which the arrangement holds, radians.</summary>
    public const double LargestLongitude = 0.35;

    /// <summary>Tangent of that longitude.</summary>
    public const double LargestTangent = 0.365;

    /// <summary>Largest easting over the scaled rectifying radius; atanh(sin 0.35) = 0.357.</summary>
    public const double LargestEta = 0.357;

    private readonly double[] alpha;
    private readonly double[] beta;
    private readonly double[] toConformal;
    private readonly double[] toGeodetic;

    public FastTransverseMercator(Ellipsoid ellipsoid, KruegerSeries series)
    {
        var e = ellipsoid.Eccentricity;
        alpha = series.ToPlane;
        beta = series.ToSphere;
        toConformal = SineSeries.Fit(latitude => Math.Atan(ConformalLatitude.TangentFromGeodetic(Math.Tan(latitude), e)) - latitude, 6);
        toGeodetic = SineSeries.Fit(conformal => Math.Atan(ConformalLatitude.TangentToGeodetic(Math.Tan(conformal), e)) - conformal, 6);
    }

    /// <summary>Latitude and longitude (radians) to xi and eta, the northing and easting over the scaled rectifying radius.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public (V Xi, V Eta) Forward(V latitude, V longitude)
    {
        var (sinLatitude, cosLatitude) = FastSeries.SineCosine(latitude);
        var difference = Sum(toConformal, 2 * sinLatitude * cosLatitude, V.One - 2 * sinLatitude * sinLatitude);
        var (sinDifference, cosDifference) = FastSeries.TinySineCosine(difference);
        var sinChi = Vector256.FusedMultiplyAdd(sinLatitude, cosDifference, cosLatitude * sinDifference);
        var cosChi = Vector256.FusedMultiplyAdd(cosLatitude, cosDifference, -(sinLatitude * sinDifference));
        var (sinLongitude, versine) = FastSeries.SmallSineVersine(longitude);

        var across = cosChi * sinLongitude;
        var shrunk = V.One - across * across;
        var foot = V.One - cosChi * cosChi * versine;
        var inverse = V.One / (shrunk * foot);
        var xi = latitude + difference + FastSeries.TinyInverseTangent(sinChi * cosChi * versine * (inverse * shrunk));
        var eta = FastSeries.SmallInverseHyperbolicTangent(across);

        // Double angles of xi' and eta' from their tangents, without computing either.
        var along = Vector256.FusedMultiplyAdd(-cosChi, versine, cosChi);
        var over = inverse * foot;
        var sine = 2 * sinChi * along * over;
        var cosine = (along * along - sinChi * sinChi) * over;
        var hyperbolicSine = 2 * across * over;
        var hyperbolicCosine = (V.One + across * across) * over;
        var (dXi, dEta) = Sum(alpha, sine, cosine, hyperbolicSine, hyperbolicCosine);
        return (xi + dXi, eta + dEta);
    }

    /// <summary>Xi and eta to latitude and longitude (radians) and the longitude's tangent; beyond the limit of the last nothing holds.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public (V Latitude, V Longitude, V Tangent) Inverse(V xi, V eta)
    {
        var (sinXi, cosXi) = FastSeries.SineCosine(xi);
        var (sinhEta, coshEtaMinusOne) = FastSeries.SmallHyperbolic(eta);
        var coshEta = V.One + coshEtaMinusOne;
        var (dXi, dEta) = Sum(
            beta, 2 * sinXi * cosXi, V.One - 2 * sinXi * sinXi, 2 * sinhEta * coshEta, V.One + 2 * sinhEta * sinhEta);

        // Sines and cosines of xi' = xi - dXi and eta' = eta - dEta by the addition theorems.
        var (sinD, cosD) = FastSeries.TinySineCosine(dXi);
        var (sinhD, coshD) = FastSeries.TinyHyperbolic(dEta);
        var sine = Vector256.FusedMultiplyAdd(sinXi, cosD, -(cosXi * sinD));
        var cosine = Vector256.FusedMultiplyAdd(cosXi, cosD, sinXi * sinD);
        var s = Vector256.FusedMultiplyAdd(sinhEta, coshD, -(coshEta * sinhD));

        var s2 = s * s;
        var r = Vector256.Sqrt(Vector256.FusedMultiplyAdd(cosine, cosine, s2));
        var widened = V.One + s2;
        var bent = (r + cosine) * Vector256.FusedMultiplyAdd(cosine, r, sine * sine);
        var inverse = V.One / (bent * widened);
        var turn = FastSeries.TinyInverseTangent(sine * s2 * (inverse * widened));
        var over = inverse * bent;
        var difference = Sum(toGeodetic, 2 * sine * r * over, (r * r - sine * sine) * over);
        var tangent = s / cosine;
        return (xi - dXi - turn + difference, FastSeries.SmallInverseTangent(tangent), tangent);
    }

    /// <summary>Sum of c_k sin 2k x from sin 2x and cos 2x, six terms.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static V Sum(double[] c, V sine, V cosine)
    {
        var factor = cosine + cosine;
        V b6 = Vector256.Create(c[5]);
        var b5 = Vector256.FusedMultiplyAdd(factor, b6, Vector256.Create(c[4]));
        var b4 = Vector256.FusedMultiplyAdd(factor, b5, Vector256.Create(c[3]) - b6);
        var b3 = Vector256.FusedMultiplyAdd(factor, b4, Vector256.Create(c[2]) - b5);
        var b2 = Vector256.FusedMultiplyAdd(factor, b3, Vector256.Create(c[1]) - b4);
        var b1 = Vector256.FusedMultiplyAdd(factor, b2, Vector256.Create(c[0]) - b3);
        return b1 * sine;
    }

    /// <summary>Sum of c_k sin 2k z for complex z = x + iy from the double-angle functions of x and y, five terms.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (V Real, V Imaginary) Sum(double[] c, V sine, V cosine, V hyperbolicSine, V hyperbolicCosine)
    {
        var factorReal = 2 * cosine * hyperbolicCosine;
        var factorImaginary = -2 * sine * hyperbolicSine;
        // Clenshaw's recurrence from the fifth term down; the first step has nothing behind it.
        var r5 = Vector256.Create(c[4]);
        var r4 = Vector256.FusedMultiplyAdd(factorReal, r5, Vector256.Create(c[3]));
        var i4 = factorImaginary * r5;
        var (r3, i3) = Step(factorReal, factorImaginary, r4, i4, Vector256.Create(c[2]) - r5, V.Zero);
        var (r2, i2) = Step(factorReal, factorImaginary, r3, i3, Vector256.Create(c[1]) - r4, -i4);
        var (r1, i1) = Step(factorReal, factorImaginary, r2, i2, Vector256.Create(c[0]) - r3, -i3);
        var sineReal = sine * hyperbolicCosine;
        var sineImaginary = cosine * hyperbolicSine;
        return (
            Vector256.FusedMultiplyAdd(r1, sineReal, -(i1 * sineImaginary)),
            Vector256.FusedMultiplyAdd(r1, sineImaginary, i1 * sineReal));
    }

    /// <summary>Complex factor times (real, imaginary) plus (addReal, addImaginary).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (V Real, V Imaginary) Step(V factorReal, V factorImaginary, V real, V imaginary, V addReal, V addImaginary) => (
        Vector256.FusedMultiplyAdd(factorReal, real, Vector256.FusedMultiplyAdd(-factorImaginary, imaginary, addReal)),
        Vector256.FusedMultiplyAdd(factorReal, imaginary, Vector256.FusedMultiplyAdd(factorImaginary, real, addImaginary)));
}
