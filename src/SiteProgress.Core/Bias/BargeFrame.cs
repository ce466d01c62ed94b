namespace SiteProgress.Core.Bias;

/// <summary>Turns between the barge's axes (forward, starboard) and those of the CRS grid (east, north).</summary>
public static class BargeFrame
{
    /// <summary>East and north of a lever arm: dE = f sin H + s cos H, dN = f cos H - s sin H.</summary>
    /// <param name="forwardMetres">Forward, metres.</param>
    /// <param name="starboardMetres">To starboard, metres.</param>
    /// <param name="headingDegrees">Heading, degrees clockwise from CRS grid north.</param>
    public static (double EastMetres, double NorthMetres) ToGrid(double forwardMetres, double starboardMetres, double headingDegrees)
    {
        (double sin, double cos) = Math.SinCos(headingDegrees * Math.PI / 180);
        return ((forwardMetres * sin) + (starboardMetres * cos), (forwardMetres * cos) - (starboardMetres * sin));
    }

    /// <summary>Forward and starboard of a vector on the CRS grid, metres.</summary>
    /// <param name="eastMetres">East, metres.</param>
    /// <param name="northMetres">North, metres.</param>
    /// <param name="headingDegrees">Heading, degrees clockwise from CRS grid north.</param>
    public static (double ForwardMetres, double StarboardMetres) FromGrid(double eastMetres, double northMetres, double headingDegrees)
    {
        (double sin, double cos) = Math.SinCos(headingDegrees * Math.PI / 180);
        return ((eastMetres * sin) + (northMetres * cos), (eastMetres * cos) - (northMetres * sin));
    }
}
