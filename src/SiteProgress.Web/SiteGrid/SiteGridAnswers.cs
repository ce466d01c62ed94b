using SiteProgress.Core.Coordinates;
using SiteProgress.Jobs.SiteGrid;
using Frame = SiteProgress.Core.Piles.Frame;

namespace SiteProgress.Web.SiteGrid;

/// <summary>Points to be converted.</summary>
/// <param name="From">siteGrid, projectedCrs, geographic, or otherDatum.</param>
/// <param name="Points">Pairs of numbers: metres, or degrees with latitude first.</param>
/// <param name="Shift">EPSG code of the published shift to another datum; needed for otherDatum.</param>
internal sealed record ConvertRequest(string? From, IReadOnlyList<double[]?>? Points, int? Shift = null)
{
    /// <summary>The word for latitude and longitude on another datum.</summary>
    public const string OtherDatum = "otherDatum";

    /// <summary>The frame of a word; null for a word nobody knows.</summary>
    public static Frame? FrameOf(string? word) => word switch
    {
        "siteGrid" => Frame.SiteGrid,
        "projectedCrs" => Frame.ProjectedCrs,
        "geographic" or OtherDatum => Frame.Geographic,
        _ => null,
    };
}

/// <summary>Converted points, in the order sent.</summary>
internal sealed record ConvertAnswer(int AdjustmentRevision, int EpsgCode, string GeographicSystem, ShiftAnswer? Shift, IReadOnlyList<ConvertedAnswer> Points)
{
    public static ConvertAnswer Of(Conversion conversion) => new(
        conversion.Revision, conversion.Crs.EpsgCode, conversion.Crs.GeographicName, conversion.Link is { } link ? ShiftAnswer.Of(link) : null, [.. conversion.Points.Select(ConvertedAnswer.Of)]);
}

/// <summary>A point in all frames, or why there is none.</summary>
internal sealed record ConvertedAnswer(
    double? XMetres, double? YMetres, double? EastingMetres, double? NorthingMetres, double? LatitudeDegrees, double? LongitudeDegrees,
    double? GridConvergenceDegrees, double? PointScaleFactor, string? Refusal, string? Caution,
    double? OtherLatitudeDegrees, double? OtherLongitudeDegrees)
{
    public static ConvertedAnswer Of(ConvertedPoint point) => new(
        point.Where?.Site.XMetres, point.Where?.Site.YMetres, point.Where?.Projected.EastingMetres, point.Where?.Projected.NorthingMetres,
        point.Where?.Geographic.LatitudeDegrees, point.Where?.Geographic.LongitudeDegrees,
        Finite(point.Where?.Distortion.ConvergenceDegrees), Finite(point.Where?.Distortion.PointScaleFactor), point.Refusal, point.Caution,
        point.Where?.Other?.LatitudeDegrees, point.Where?.Other?.LongitudeDegrees);

    private static double? Finite(double? value) => value is { } number && double.IsFinite(number) ? number : null;
}

/// <summary>The site grid, as programs read it. Rotation is counter-clockwise from the easting axis; residuals are computed minus surveyed.</summary>
internal sealed record SiteGridAnswer(
    int AdjustmentRevision, string Kind, DateTime AdoptedAt, string AdoptedBy, string Reason, string FirstAxis, string SecondAxis,
    int EpsgCode, string CrsName, string GeographicSystem, double Scale, double RotationDegrees,
    double OriginEastingMetres, double OriginNorthingMetres, int? Redundancy, double? StandardErrorOfUnitWeight,
    double? ScaleStandardError, double? RotationStandardErrorDegrees, IReadOnlyList<MarkAnswer> ControlPoints, IReadOnlyList<string> Warnings)
{
    public static SiteGridAnswer Of(SiteGridRead grid)
    {
        Adjustment adjustment = grid.Adopted.Body.Adjustment;
        ProjectedCoordinate origin = adjustment.Forward(new SiteCoordinate(0, 0));
        return new SiteGridAnswer(
            adjustment.Revision, adjustment.Kind.ToString().ToLowerInvariant(), grid.Adopted.AdoptedAt.ToDateTimeUtc(), grid.Adopted.AdoptedBy, grid.Adopted.Body.Reason,
            grid.Settings.GridAxes.First, grid.Settings.GridAxes.Second, grid.Crs.EpsgCode, grid.Crs.Name, grid.Crs.GeographicName,
            adjustment.Scale, adjustment.RotationDegrees, origin.EastingMetres, origin.NorthingMetres,
            grid.Quality?.Redundancy, grid.Quality?.StandardErrorOfUnitWeight, grid.Quality?.StandardErrors?.Scale, grid.Quality?.StandardErrors?.RotationDegrees,
            [.. grid.Adopted.Body.ControlPoints.Select((mark, index) => MarkAnswer.Of(mark, grid.Quality?.Residuals[index]))],
            [.. grid.Quality?.Warnings.Select(warning => warning.Text) ?? [], .. new[] { grid.CoverWarning }.OfType<string>()]);
    }
}

/// <summary>A control point with its residual.</summary>
internal sealed record MarkAnswer(
    string Name, double XMetres, double YMetres, double EastingMetres, double NorthingMetres, double StandardDeviationMetres,
    double? ResidualEastMetres, double? ResidualNorthMetres, double? RedundancyNumber)
{
    public static MarkAnswer Of(ControlPoint mark, ControlPointResidual? residual) => new(
        mark.Name, mark.Site.XMetres, mark.Site.YMetres, mark.Projected.EastingMetres, mark.Projected.NorthingMetres, mark.StandardDeviationMetres,
        residual?.EastMetres, residual?.NorthMetres, residual?.RedundancyNumber);
}
