using SiteProgress.Core.Piles;
using SiteProgress.Web.Shell;
using Frame = SiteProgress.Core.Piles.Frame;

namespace SiteProgress.Web.RecordsIn;

/// <summary>Positions as recorded: titles of the two columns and numbers in the unit of the frame.</summary>
internal static class PositionText
{
    /// <summary>Titles of the two columns with their unit.</summary>
    public static (string First, string Second) Titles(Frame? frame, GridAxes axes) => frame switch
    {
        Frame.ProjectedCrs => ("Easting [m]", "Northing [m]"),
        Frame.Geographic => ("Latitude [°]", "Longitude [°]"),
        _ => ($"{axes.First} [m]", $"{axes.Second} [m]"),
    };

    /// <summary>One of the two numbers.</summary>
    public static string Number(Frame frame, double value) => frame == Frame.Geographic ? Show.Degrees(value) : Show.Coordinate(value);

    /// <summary>Both numbers with the names of their axes, for a place that holds positions of any frame.</summary>
    public static string Both(RecordedPosition position, GridAxes axes)
    {
        (string first, string second) = position.Frame switch
        {
            Frame.ProjectedCrs => ("E", "N"),
            Frame.Geographic => ("lat", "lon"),
            _ => (axes.First, axes.Second),
        };
        return $"{first} {Number(position.Frame, position.First)}, {second} {Number(position.Frame, position.Second)}";
    }
}
