using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Design.Layouts;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Tests.Design.Layouts;

/// <summary>Inputs of layouts for tests.</summary>
internal static class Laying
{
    public static LayoutInputs Inputs(params (double X, double Y)[] corners) => new(
        "A", [Ring(corners)], Pattern.Square, 2.1, null, null, Origin: new(0, 0), 0, 0, 2.0, -12.5, -28, 15, 0.82, new NumberingRule("A-{count:4}"));

    public static SiteCoordinate[] Ring(params (double X, double Y)[] corners) => [.. corners.Select(corner => new SiteCoordinate(corner.X, corner.Y))];

    public static LayoutInputs Rectangle(double wide, double high) => Inputs((0, 0), (wide, 0), (wide, high), (0, high));

    public static SiteCoordinate Turned(SiteCoordinate at, double degrees, double shiftX, double shiftY)
    {
        (double sine, double cosine) = Math.SinCos(degrees * Math.PI / 180);
        return new((at.XMetres * cosine) - (at.YMetres * sine) + shiftX, (at.XMetres * sine) + (at.YMetres * cosine) + shiftY);
    }

    public static LayoutInputs Turned(LayoutInputs inputs, double degrees, double shiftX, double shiftY) => inputs with
    {
        Rings = [.. inputs.Rings.Select(ring => ring.Select(at => Turned(at, degrees, shiftX, shiftY)).ToArray())],
        Origin = Turned(inputs.Origin, degrees, shiftX, shiftY),
        RotationDegrees = inputs.RotationDegrees + degrees,
    };

    /// <summary>A ring around a centre whose corners lie at growing angles, so that it never crosses itself; concave as a rule.</summary>
    public static SiteCoordinate[] Star(Random chance, int corners, double least, double most, double centreX, double centreY)
        => [.. Enumerable.Range(0, corners).Select(index =>
        {
            double angle = 2 * Math.PI * (index + (0.8 * chance.NextDouble())) / corners;
            double radius = least + ((most - least) * chance.NextDouble());
            return new SiteCoordinate(centreX + (radius * Math.Cos(angle)), centreY + (radius * Math.Sin(angle)));
        })];
}
