using SiteProgress.Core.Coordinates;
using SiteProgress.Jobs.SiteGrid;

namespace SiteProgress.Web.SiteGrid;

/// <summary>A control point with the vector drawn at it.</summary>
/// <param name="Name">Name of the mark.</param>
/// <param name="At">Where it is, projected CRS.</param>
/// <param name="EastMetres">Vector, east.</param>
/// <param name="NorthMetres">Vector, north.</param>
/// <param name="StandsOut">True where a test says that it stands out.</param>
public sealed record MarkVector(string Name, ProjectedCoordinate At, double EastMetres, double NorthMetres, bool StandsOut)
{
    /// <summary>Length of the vector, metres.</summary>
    public double LengthMetres => Math.Sqrt((EastMetres * EastMetres) + (NorthMetres * NorthMetres));

    /// <summary>The residuals of a fit.</summary>
    public static IReadOnlyList<MarkVector> Residuals(IReadOnlyList<ControlPoint> marks, AdjustmentQuality? quality)
    {
        ArgumentNullException.ThrowIfNull(marks);
        return [.. marks.Select((mark, index) => quality?.Residuals[index] is { } left
            ? new MarkVector(mark.Name, mark.Projected, left.EastMetres, left.NorthMetres, mark.Name == quality.SuspectMark)
            : new MarkVector(mark.Name, mark.Projected, 0, 0, false))];
    }

    /// <summary>The movements of the marks since they were adopted.</summary>
    public static IReadOnlyList<MarkVector> Movements(MarksOverTime marks)
    {
        ArgumentNullException.ThrowIfNull(marks);
        return [.. marks.Marks.Select(mark => mark.Latest?.SinceAdopted is { } moved
            ? new MarkVector(mark.Adopted.Name, mark.Adopted.Projected, moved.EastMetres, moved.NorthMetres, moved.HasMoved)
            : new MarkVector(mark.Adopted.Name, mark.Adopted.Projected, 0, 0, false))];
    }
}
