using System.Globalization;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Design.Layouts;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.SiteGrid;

namespace SiteProgress.Jobs.Design;

/// <summary>Reads a layout from its texts; what is left out comes from the zone and from what is planned in it.</summary>
/// <param name="zone">The zone.</param>
/// <param name="planned">Piles planned in it now.</param>
/// <param name="factor">C of the zone's sand source.</param>
internal sealed class LayoutReading(Zone zone, IReadOnlyList<PlannedPile> planned, double? factor)
{
    private const int MostCorners = 2_000;
    private readonly List<LayoutProblem> problems = [];

    /// <summary>The texts with what was left out filled in.</summary>
    public LayoutTexts Filled { get; private set; } = new();

    /// <summary>What cannot be read.</summary>
    public IReadOnlyList<LayoutProblem> Problems => problems;

    /// <summary>True where the layout takes the place of what is planned in the zone.</summary>
    public bool Replaces => Filled.Replaces == "yes";

    /// <summary>Reads; null where something cannot be read.</summary>
    public LayoutInputs? Read(LayoutTexts given)
    {
        Filled = Fill(given);
        IReadOnlyList<IReadOnlyList<SiteCoordinate>> rings = Rings();
        Pattern pattern = Word("Pattern", Filled.Pattern, [.. LayoutTexts.Patterns.Select(one => (one.Value, one.Word))]);
        (bool rows, bool piles) = Word("First pile", Filled.Begin, [.. LayoutTexts.Begins.Select(one => ((one.RowsBackwards, one.PilesBackwards), one.Word))]);
        NumberingRule numbering = new(
            Filled.Numbers ?? "", Whole("First row", Filled.FirstRow), Whole("Row step", Filled.RowStep), Whole("First number", Filled.First), Whole("Step", Filled.Step),
            Word("Order in the rows", Filled.Order, [(false, "same"), (true, "serpentine")]), Word("Places counted", Filled.Places, [(false, "row"), (true, "column")]), rows, piles);
        _ = Word("Replaces", Filled.Replaces, [(true, "yes"), (false, "no")]);
        LayoutInputs inputs = new(
            zone.Code, rings, pattern, Number("Spacing", Filled.Spacing), pattern == Pattern.Rectangular ? Number("Second spacing", Filled.Second) : null, Number("Replacement ratio", Filled.Ratio),
            new SiteCoordinate(Needed("Origin", Filled.X), Needed("Origin", Filled.Y)), Needed("Rotation", Filled.Turn), Needed("Edge distance", Filled.Edge),
            Needed("Diameter", Filled.Diameter), Needed("Top level", Filled.Top), Number("Tip level", Filled.Tip), Number("Least length", Filled.Length), factor, numbering);
        return problems.Count == 0 ? inputs : null;
    }

    private LayoutTexts Fill(LayoutTexts given)
    {
        string pattern = Or(given.Pattern, LayoutTexts.Patterns.First(one => one.Value == zone.Pattern).Word);
        bool ratio = !string.IsNullOrWhiteSpace(given.Ratio);
        bool rectangular = pattern == "rectangular";
        SiteCoordinate origin = Origin();
        return given with
        {
            Zone = zone.Code,
            Corners = Or(given.Corners, Text(zone.Outline)),
            Pattern = pattern,
            Spacing = Or(given.Spacing, ratio && !rectangular ? "" : Text(zone.SpacingMetres)),
            Second = Or(given.Second, ratio || !rectangular ? "" : Text(zone.SecondSpacingMetres)),
            Ratio = Or(given.Ratio, ""),
            X = Or(given.X, Text(origin.XMetres)),
            Y = Or(given.Y, Text(origin.YMetres)),
            Turn = Or(given.Turn, "0"),
            Edge = Or(given.Edge, Text(zone.DesignDiameterMetres / 2)),
            Diameter = Or(given.Diameter, Text(zone.DesignDiameterMetres)),
            Top = Or(given.Top, Text(zone.TopLevelMetres)),
            Tip = Or(given.Tip, Text(zone.TipLevelMetres)),
            Length = Or(given.Length, Text(zone.LeastLengthMetres)),
            Numbers = Or(given.Numbers, zone.Code + "-{count:4}"),
            FirstRow = Or(given.FirstRow, "1"),
            RowStep = Or(given.RowStep, "1"),
            First = Or(given.First, "1"),
            Step = Or(given.Step, "1"),
            Order = Or(given.Order, "same"),
            Places = Or(given.Places, "row"),
            Begin = Or(given.Begin, "near-start"),
            Replaces = Or(given.Replaces, planned.Count > 0 ? "yes" : "no"),
        };
    }

    /// <summary>Any pile that is planned fixes the pattern; without one, the first place lies half a cell from the least corner of the outline.</summary>
    private SiteCoordinate Origin()
    {
        if (planned.Count > 0) return planned.MinBy(pile => (Math.Round(pile.Position.YMetres, 2), pile.Position.XMetres))!.Position;
        if (zone.Outline.Count == 0) return default;
        double rows = PatternGeometry.RowSpacing(zone.Pattern, zone.SpacingMetres, zone.SecondSpacingMetres);
        return new SiteCoordinate(zone.Outline.Min(at => at[0]) + (zone.SpacingMetres / 2), zone.Outline.Min(at => at[1]) + (rows / 2));
    }

    private List<List<SiteCoordinate>> Rings()
    {
        string text = Filled.Corners ?? "";
        string[] lines = text.Split('\n');
        List<List<SiteCoordinate>> rings = [];
        int last = 0;
        foreach (PointLine line in PointText.ReadList(Frame.SiteGrid, text, MostCorners))
        {
            if (line.Problem is not null)
                problems.Add(new LayoutProblem(string.Create(CultureInfo.InvariantCulture, $"Corners, line {line.Line}"), Short(lines[line.Line - 1]), "two numbers of metres parted by a blank, comma, semicolon or tab, such as 1000.00 2000.00"));
            // A blank line since the last corner begins another ring.
            if (rings.Count == 0 || lines[last..(line.Line - 1)].Any(string.IsNullOrWhiteSpace)) rings.Add([]);
            if (line.Point is { } point) rings[^1].Add(new SiteCoordinate(point.First, point.Second));
            last = line.Line;
        }

        return rings;
    }

    private double Needed(string where, string? text) => Number(where, string.IsNullOrWhiteSpace(text) ? "nothing" : text) ?? 0;

    private double? Number(string where, string? text)
    {
        if (string.IsNullOrWhiteSpace(text)) return null;
        string plain = text.Trim().Replace('\u2212', '-').Replace(',', '.');
        if (double.TryParse(plain, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double number) && double.IsFinite(number)) return number;
        problems.Add(new LayoutProblem(where, Short(text), "a number, such as 2.1"));
        return null;
    }

    private int Whole(string where, string? text)
    {
        if (int.TryParse(text?.Trim(), NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out int number)) return number;
        problems.Add(new LayoutProblem(where, Short(text ?? ""), "a whole number, such as 1"));
        return 0;
    }

    private T Word<T>(string where, string? text, IReadOnlyList<(T Value, string Word)> words)
    {
        foreach ((T value, string word) in words)
        {
            if (string.Equals(word, text?.Trim(), StringComparison.OrdinalIgnoreCase)) return value;
        }

        problems.Add(new LayoutProblem(where, Short(text ?? ""), string.Join(" or ", words.Select(one => one.Word))));
        return words[0].Value;
    }

    private static string Or(string? given, string otherwise) => string.IsNullOrWhiteSpace(given) ? otherwise : given;

    private static string Text(double? metres) => metres?.ToString("0.####", CultureInfo.InvariantCulture) ?? "";

    private static string Text(IReadOnlyList<double[]> corners)
        => string.Join('\n', corners.Select(corner => string.Create(CultureInfo.InvariantCulture, $"{corner[0]:0.####} {corner[1]:0.####}")));

    private static string Short(string text) => text.Trim() is { Length: > 40 } longer ? longer[..39] + "…" : text.Trim();
}
