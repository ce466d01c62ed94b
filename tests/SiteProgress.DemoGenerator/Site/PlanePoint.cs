namespace SiteProgress.DemoGenerator.Site;

/// <summary>A point or a shift on a plane, metres. The name of the variable says which plane.</summary>
public readonly record struct PlanePoint(double First, double Second)
{
    public static PlanePoint operator +(PlanePoint a, PlanePoint b) => new(a.First + b.First, a.Second + b.Second);

    public static PlanePoint operator -(PlanePoint a, PlanePoint b) => new(a.First - b.First, a.Second - b.Second);

    public double Length => Math.Sqrt((First * First) + (Second * Second));

    /// <summary>
    /// A shift given forward and to starboard of a barge, turned onto the plane; the heading is clockwise from the second axis.
    /// </summary>
    public static PlanePoint FromShip(double forward, double starboard, double headingDegrees)
    {
        var heading = headingDegrees * Math.PI / 180;
        return new PlanePoint(
            (forward * Math.Sin(heading)) + (starboard * Math.Cos(heading)),
            (forward * Math.Cos(heading)) - (starboard * Math.Sin(heading)));
    }
}
