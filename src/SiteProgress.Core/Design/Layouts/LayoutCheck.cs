using System.Globalization;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Design.Layouts;

/// <summary>Says what of a layout's inputs cannot be, apart from the outline.</summary>
internal static class LayoutCheck
{
    private const double Slack = 1e-9;
    private const double FarthestMetres = 1e8;

    /// <summary>The spacings to lay out by; what is wrong with the inputs goes to the list.</summary>
    public static (double Spacing, double? Second)? Spacings(LayoutInputs inputs, List<LayoutProblem> problems)
    {
        int before = problems.Count;
        Between(problems, "Diameter", inputs.DiameterMetres, 0.1, 10, "a pile diameter in metres, 0.1 to 10");
        if (!Enum.IsDefined(inputs.Pattern)) problems.Add(new LayoutProblem("Pattern", inputs.Pattern.ToString(), "square, rectangular or triangular"));
        if (inputs.SpacingMetres is { } given) Between(problems, "Spacing", given, 0.1, 100, "metres, 0.1 to 100");
        if (inputs is { Pattern: Pattern.Rectangular, SecondSpacingMetres: { } across }) Between(problems, "Second spacing", across, 0.1, 100, "metres, 0.1 to 100");
        if (inputs.ReplacementRatio is { } ratio) Between(problems, "Replacement ratio", ratio, 0.001, 1, "a ratio above 0 and below 1, such as 0.7");
        if (inputs.ReplacementRatio is not null && inputs.SpacingMetres is not null && (inputs.Pattern != Pattern.Rectangular || inputs.SecondSpacingMetres is not null))
            problems.Add(new LayoutProblem("Replacement ratio", "it and every spacing", "one of them left empty: the spacing follows from the ratio, or the ratio from the spacing"));
        if (problems.Count > before) return null;
        return inputs.Pattern == Pattern.Rectangular ? Rectangular(inputs, problems) : Single(inputs, problems);
    }

    /// <summary>What is wrong with place, levels and numbers.</summary>
    public static void Rest(LayoutInputs inputs, List<LayoutProblem> problems)
    {
        Between(problems, "Origin", inputs.Origin.XMetres, -FarthestMetres, FarthestMetres, "metres on the site grid");
        Between(problems, "Origin", inputs.Origin.YMetres, -FarthestMetres, FarthestMetres, "metres on the site grid");
        Between(problems, "Rotation", inputs.RotationDegrees, -360, 360, "degrees, −360 to 360");
        Between(problems, "Edge distance", inputs.EdgeMetres, 0, 1000, "metres, 0 or more: how far inside the boundary a centre lies at least");
        Between(problems, "Top level", inputs.TopLevelMetres, -500, 500, "a level in metres above the datum");
        if (inputs.TipLevelMetres is { } tip && Between(problems, "Tip level", tip, -500, 500, "a level in metres above the datum") && tip >= inputs.TopLevelMetres)
            problems.Add(new LayoutProblem("Tip level", Metres(tip), $"a level below the top level {Metres(inputs.TopLevelMetres)}; is it a depth?"));
        if (inputs.LeastLengthMetres is { } length) Between(problems, "Least length", length, 0.1, 500, "metres above 0");
        if (inputs.VolumeChangeFactor is { } factor) Between(problems, "C", factor, 0.1, 1.5, "volume in the pile over loose volume in the casing, such as 0.82");
        Whole(problems, "First row", inputs.Numbering.FirstRow, 0, 1_000_000);
        Whole(problems, "Row step", inputs.Numbering.RowStep, 1, 1_000);
        Whole(problems, "First number", inputs.Numbering.FirstPlace, 0, 1_000_000_000);
        Whole(problems, "Step", inputs.Numbering.PlaceStep, 1, 1_000);
    }

    private static (double, double?)? Single(LayoutInputs inputs, List<LayoutProblem> problems)
    {
        double touching = PatternGeometry.TouchingRatio(inputs.Pattern, inputs.DiameterMetres, 0);
        if (inputs.SpacingMetres is not { } spacing)
        {
            if (inputs.ReplacementRatio is not { } ratio) return Missing(problems, "Spacing");
            if (ratio > touching + Slack)
            {
                problems.Add(new LayoutProblem("Replacement ratio", Ratio(ratio), $"at most {Ratio(touching)}, at which the circles of {Word(inputs.Pattern)} pattern touch: piles cannot fill more of the ground without overlapping"));
                return null;
            }

            spacing = Math.Max(PatternGeometry.SpacingFor(inputs.Pattern, inputs.DiameterMetres, ratio, 0), inputs.DiameterMetres);
        }

        return Clear(problems, "Spacing", spacing, inputs) ? (spacing, null) : null;
    }

    private static (double, double?)? Rectangular(LayoutInputs inputs, List<LayoutProblem> problems)
    {
        if (inputs.SpacingMetres is not { } spacing) return Missing(problems, "Spacing");
        if (!Clear(problems, "Spacing", spacing, inputs)) return null;
        if (inputs.SecondSpacingMetres is not { } second)
        {
            if (inputs.ReplacementRatio is not { } ratio) return Missing(problems, "Second spacing");
            double touching = PatternGeometry.TouchingRatio(Pattern.Rectangular, inputs.DiameterMetres, spacing);
            second = PatternGeometry.SpacingFor(Pattern.Rectangular, inputs.DiameterMetres, ratio, spacing);
            if (ratio > touching + Slack)
            {
                problems.Add(new LayoutProblem(
                    "Replacement ratio", Ratio(ratio),
                    $"at most {Ratio(touching)} with {Metres(spacing)} along the row: the second spacing would be {Metres(second)}, and piles of {Metres(inputs.DiameterMetres)} would overlap by {Metres(inputs.DiameterMetres - second)}"));
                return null;
            }

            second = Math.Max(second, inputs.DiameterMetres);
        }

        return Clear(problems, "Second spacing", second, inputs) ? (spacing, second) : null;
    }

    private static (double, double?)? Missing(List<LayoutProblem> problems, string where)
    {
        problems.Add(new LayoutProblem(where, "nothing", "metres; or a replacement ratio from which it follows"));
        return null;
    }

    private static bool Clear(List<LayoutProblem> problems, string where, double spacing, LayoutInputs inputs)
    {
        double overlap = inputs.DiameterMetres - spacing;
        if (overlap <= Slack) return true;
        problems.Add(new LayoutProblem(
            where, Metres(spacing),
            $"at least the diameter, {Metres(inputs.DiameterMetres)}: neighbours would overlap by {Metres(overlap)}; {(inputs.Pattern == Pattern.Triangular ? "triangles touch at a replacement ratio of 0.9069" : "squares touch at a replacement ratio of 0.7854")}"));
        return false;
    }

    private static bool Between(List<LayoutProblem> problems, string where, double value, double least, double most, string expected)
    {
        // Written so that a value that is no number fails too.
        if (value >= least && value <= most) return true;
        problems.Add(new LayoutProblem(where, value.ToString("0.####", CultureInfo.InvariantCulture), expected));
        return false;
    }

    private static void Whole(List<LayoutProblem> problems, string where, int value, int least, int most)
    {
        if (value >= least && value <= most) return;
        problems.Add(new LayoutProblem(where, value.ToString(CultureInfo.InvariantCulture), string.Create(CultureInfo.InvariantCulture, $"a whole number, {least} to {most}")));
    }

    private static string Word(Pattern pattern) => pattern == Pattern.Triangular ? "a triangular" : "a square";

    private static string Ratio(double ratio) => ratio.ToString("0.0000", CultureInfo.InvariantCulture);

    private static string Metres(double metres) => metres.ToString("0.000", CultureInfo.InvariantCulture).Replace('-', '\u2212') + " m";
}
