namespace SiteProgress.Core.Coordinates;

/// <summary>Weighted sums of the marks about their own centroid, from which every fit is solved without losing digits.</summary>
internal sealed record CentredSums(
    double Weight, SiteCoordinate Site, ProjectedCoordinate Projected,
    double XX, double XY, double YY, double XEast, double XNorth, double YEast, double YNorth)
{
    public double SquaredRadius => XX + YY;

    /// <summary>Width over length of the marks' spread in the site grid: 0 on one line, 1 for a square.</summary>
    public double ShapeRatio
    {
        get
        {
            double mean = (XX + YY) / 2, half = (XX - YY) / 2, spread = Math.Sqrt(half * half + XY * XY);
            return Math.Sqrt(Math.Max(0, mean - spread) / (mean + spread));
        }
    }

    public static double WeightOf(ControlPoint point) => 1 / (point.StandardDeviationMetres * point.StandardDeviationMetres);

    public static CentredSums Of(IReadOnlyList<ControlPoint> points)
    {
        // Reducing to the first mark before averaging keeps the mean exact to the last digit of seven-digit northings.
        var first = points[0];
        double weight = 0, x = 0, y = 0, east = 0, north = 0;
        foreach (var point in points)
        {
            var w = WeightOf(point);
            weight += w;
            x += w * (point.Site.XMetres - first.Site.XMetres);
            y += w * (point.Site.YMetres - first.Site.YMetres);
            east += w * (point.Projected.EastingMetres - first.Projected.EastingMetres);
            north += w * (point.Projected.NorthingMetres - first.Projected.NorthingMetres);
        }

        var site = new SiteCoordinate(first.Site.XMetres + x / weight, first.Site.YMetres + y / weight);
        var projected = new ProjectedCoordinate(first.Projected.EastingMetres + east / weight, first.Projected.NorthingMetres + north / weight);
        double xx = 0, xy = 0, yy = 0, xe = 0, xn = 0, ye = 0, yn = 0;
        foreach (var point in points)
        {
            var w = WeightOf(point);
            double dx = point.Site.XMetres - site.XMetres, dy = point.Site.YMetres - site.YMetres;
            double de = point.Projected.EastingMetres - projected.EastingMetres, dn = point.Projected.NorthingMetres - projected.NorthingMetres;
            xx += w * dx * dx;
            xy += w * dx * dy;
            yy += w * dy * dy;
            xe += w * dx * de;
            xn += w * dx * dn;
            ye += w * dy * de;
            yn += w * dy * dn;
        }

        return new(weight, site, projected, xx, xy, yy, xe, xn, ye, yn);
    }
}
