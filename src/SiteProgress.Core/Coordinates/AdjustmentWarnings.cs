using System.Globalization;

namespace SiteProgress.Core.Coordinates;

/// <summary>What stands out about a fit, in words for a surveyor.</summary>
internal static class AdjustmentWarnings
{
    /// <summary>A site grid in metres differs from a projected CRS by its scale factor and height, together well below this.</summary>
    private const double LargestUsualScaleDifference = 0.002;

    /// <summary>Below this share an error of a mark is nearly all taken up by the fit itself (common practice, no source).</summary>
    private const double SmallestUsefulRedundancy = 0.1;

    /// <summary>Marks narrower than this share of their length carry no turn across the line (common practice, no source).</summary>
    private const double NarrowestShape = 0.02;

    public static List<AdjustmentWarning> Collect(
        IReadOnlyList<ControlPoint> points, Adjustment adjustment, Adjustment? withOtherAxes, AdjustmentQuality quality)
    {
        var warnings = new List<AdjustmentWarning>();
        if (!quality.IsChecked)
            Add(AdjustmentWarningKind.NotChecked, $"The fit from {points.Count} control points is not checked: a wrong coordinate would not show. Add at least one more mark.");
        AddSameNames(points, warnings);
        AddSamePlaces(points, warnings);
        if (points.All(p => Math.Abs(p.Projected.EastingMetres) <= 180 && Math.Abs(p.Projected.NorthingMetres) <= 180))
            Add(AdjustmentWarningKind.LooksLikeDegrees, "Every easting and northing is below 180: these look like latitudes and longitudes in degrees, not metres.");
        if (points.Count > 2 && CentredSums.Of(points).ShapeRatio < NarrowestShape)
            Add(AdjustmentWarningKind.MarksInOneLine, "The control points lie in one line: whether the site's axes are the right way round cannot be seen from them, and the fit is weak beside the line.");
        AddSwappedAxes(points, adjustment, withOtherAxes, warnings);
        AddScale(adjustment, warnings);
        if (quality.IsChecked) AddContradictions(quality, warnings);
        return warnings;

        void Add(AdjustmentWarningKind kind, string text) => warnings.Add(new(kind, text));
    }

    private static void AddContradictions(AdjustmentQuality quality, List<AdjustmentWarning> warnings)
    {
        foreach (var residual in quality.Residuals.Where(r => r.RedundancyNumber < SmallestUsefulRedundancy))
            warnings.Add(new(AdjustmentWarningKind.MarkHardlyChecked, Text(
                $"{residual.Name} is hardly checked by the other marks: only {residual.RedundancyNumber * 100:0} % of an error in it would show in its residual.")));
        if (quality.GlobalTest is { } test && test.Statistic > test.UpperLimit)
            warnings.Add(new(AdjustmentWarningKind.ResidualsTooLarge, Text(
                $"The residuals are larger than the stated standard deviations allow: {Big(test.Statistic)} where chi-squared allows {test.UpperLimit:0.0} at 95 %.")));
        if (quality.Residuals.MaxBy(r => r.LargestW) is { } worst && worst.Name == quality.SuspectMark)
            warnings.Add(new(AdjustmentWarningKind.MarkContradicts, Text(
                $"{worst.Name} contradicts the other marks: its residual of {worst.LengthMetres:0.000} m is {Big(worst.LargestW)} times its own standard deviation, where {GlobalTest.LargestAcceptedW} is the limit.")));
    }

    private static void AddSameNames(IReadOnlyList<ControlPoint> points, List<AdjustmentWarning> warnings)
    {
        foreach (var name in points.GroupBy(p => p.Name, StringComparer.Ordinal).Where(g => g.Count() > 1).Select(g => g.Key))
            warnings.Add(new(AdjustmentWarningKind.SameName, $"More than one control point is named {name}."));
    }

    private static void AddSamePlaces(IReadOnlyList<ControlPoint> points, List<AdjustmentWarning> warnings)
    {
        foreach (var together in points.GroupBy(p => p.Site).Where(g => g.Count() > 1))
            warnings.Add(new(AdjustmentWarningKind.SamePlace, $"{string.Join(" and ", together.Select(p => p.Name))} lie at one place of the site grid: together they check no more than one mark would, and the redundancy counts them as two."));
    }

    private static void AddSwappedAxes(
        IReadOnlyList<ControlPoint> points, Adjustment adjustment, Adjustment? withOtherAxes, List<AdjustmentWarning> warnings)
    {
        if (withOtherAxes is null || points.Count < 3) return;
        double given = Misfit(points, adjustment), swapped = Misfit(points, withOtherAxes);
        if (given < 0.05 || swapped > given / 10) return;
        warnings.Add(new(AdjustmentWarningKind.AxesLookSwapped, Text(
            $"The marks disagree by {given:0.000} m as given and by {swapped:0.000} m when the axes change places: easting and northing, or X and Y, look swapped.")));
    }

    private static void AddScale(Adjustment adjustment, List<AdjustmentWarning> warnings)
    {
        var scale = adjustment.Scale;
        if (Math.Abs(scale - 1) <= LargestUsualScaleDifference) return;
        var hint = Near(scale, 0.3048) ? " It is that of feet against metres."
            : Near(scale, 1 / 0.3048) ? " It is that of metres against feet."
            : Near(scale, 0.001) ? " It is that of millimetres against metres." : "";
        warnings.Add(new(AdjustmentWarningKind.ScaleFarFromOne, Text(
            $"The scale is {scale:0.000000}; for a site grid in metres it should be within {LargestUsualScaleDifference} of 1.{hint}")));
    }

    /// <summary>Root mean square of the residual vectors, metres.</summary>
    private static double Misfit(IReadOnlyList<ControlPoint> points, Adjustment adjustment)
    {
        double sum = 0;
        foreach (var point in points)
        {
            var computed = adjustment.Forward(point.Site);
            sum += Square(computed.EastingMetres - point.Projected.EastingMetres) + Square(computed.NorthingMetres - point.Projected.NorthingMetres);
        }

        return Math.Sqrt(sum / points.Count);
    }

    private static bool Near(double value, double target) => Math.Abs(value / target - 1) < LargestUsualScaleDifference;

    /// <summary>A test value; past a thousand its digits tell nothing.</summary>
    private static string Big(double value) => value > 1000 ? "more than 1000" : Text($"{value:0.0}");

    private static double Square(double value) => value * value;

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
