using SiteProgress.Jobs.SiteGrid;

namespace SiteProgress.Web.SiteGrid;

/// <summary>A line of a pasted list with its converted point.</summary>
/// <param name="Line">The line.</param>
/// <param name="Converted">Its point; null when the line could not be read.</param>
public sealed record PointListRow(PointLine Line, ConvertedPoint? Converted)
{
    /// <summary>Puts the lines and the converted points of those that could be read together.</summary>
    public static IReadOnlyList<PointListRow> Join(IReadOnlyList<PointLine> lines, Conversion? conversion)
    {
        ArgumentNullException.ThrowIfNull(lines);
        int next = 0;
        return lines.Select(line => new PointListRow(line, line.Point is null || conversion is null ? null : conversion.Points[next++])).ToArray();
    }
}
