using System.Globalization;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Design.Layouts;

/// <summary>A pile of a layout.</summary>
/// <param name="Number">Its number.</param>
/// <param name="Row">Its row, from 1 in the order of numbering.</param>
/// <param name="Position">Design position, site grid.</param>
public sealed record LaidPile(string Number, int Row, SiteCoordinate Position);

/// <summary>What laying out gave: a layout, or the reasons why there is none.</summary>
/// <param name="Layout">The layout; null where something is wrong.</param>
/// <param name="Problems">What is wrong.</param>
public sealed record LayoutResult(PileLayout? Layout, IReadOnlyList<LayoutProblem> Problems);

/// <summary>
/// Planned piles of an area by a pattern, with what they amount to. It informs: strength and replacement ratio are for local codes and
/// the licensed engineer to decide.
/// </summary>
/// <param name="Inputs">What it was made from.</param>
/// <param name="Piles">The piles in the order of their numbers.</param>
/// <param name="Figures">What they amount to.</param>
public sealed record PileLayout(LayoutInputs Inputs, IReadOnlyList<LaidPile> Piles, LayoutFigures Figures)
{
    /// <summary>Most piles of one layout.</summary>
    public static int MostPiles => 200_000;

    private const long MostRows = 200_000;

    /// <summary>The piles as planned ones, with the levels and the diameter of the layout.</summary>
    public IEnumerable<PlannedPile> Planned()
        => Piles.Select(pile => new PlannedPile(
            0, pile.Number, Inputs.Zone, pile.Position, Inputs.DiameterMetres, Inputs.TopLevelMetres, Inputs.TipLevelMetres, Inputs.LeastLengthMetres, null));

    /// <summary>Lays out piles.</summary>
    /// <param name="inputs">Area, pattern, place, pile and numbers.</param>
    /// <returns>
    /// The layout, or every reason found why there is none. A pile stands where its centre lies inside the outline by the edge distance or more;
    /// a centre within <see cref="SitePolygon.OnBoundaryMetres"/> of that limit stands too.
    /// </returns>
    public static LayoutResult Of(LayoutInputs inputs)
    {
        ArgumentNullException.ThrowIfNull(inputs);
        List<LayoutProblem> problems = [];
        (SitePolygon? polygon, LayoutProblem? wrong) = SitePolygon.Of(inputs.Rings);
        if (wrong is not null) problems.Add(wrong);
        (double Spacing, double? Second)? spacings = LayoutCheck.Spacings(inputs, problems);
        LayoutCheck.Rest(inputs, problems);
        (NumberPattern? numbers, LayoutProblem? unread) = NumberPattern.Read(inputs.Numbering.Pattern);
        if (unread is not null) problems.Add(unread);
        else if (numbers!.HasLetters && inputs.Numbering.FirstRow < 1) problems.Add(new LayoutProblem("First row", "0", "1 or more where rows have letters: 1 is A"));
        if (problems.Count > 0) return new LayoutResult(null, problems);
        return Lay(inputs, polygon!, spacings!.Value.Spacing, spacings.Value.Second, numbers!);
    }

    private static LayoutResult Lay(LayoutInputs inputs, SitePolygon polygon, double spacing, double? second, NumberPattern numbers)
    {
        LayoutGrid grid = new(polygon, inputs, spacing, PatternGeometry.RowSpacing(inputs.Pattern, spacing, second));
        double expected = polygon.AreaSquareMetres / PatternGeometry.CellArea(inputs.Pattern, spacing, second);
        if (grid.LastRow - grid.FirstRow >= MostRows || expected > 2.0 * MostPiles) return TooMany(expected);
        List<GridPlace> places = [];
        foreach (GridPlace place in grid.Places())
        {
            if (places.Count == MostPiles) return TooMany(expected);
            places.Add(place);
        }

        if (places.Count == 0)
        {
            return new LayoutResult(null, [new LayoutProblem(
                "Outline", "no place for a pile", "an outline that holds at least one place of the pattern by the edge distance; look at origin, spacing and edge distance")]);
        }

        IReadOnlyList<LaidPile> piles = LayoutNumbers.Put(places, inputs.Numbering, numbers);
        return LayoutNumbers.Repeated(piles) is { } repeated
            ? new LayoutResult(null, [repeated])
            : new LayoutResult(new PileLayout(inputs, piles, LayoutFigures.Of(inputs, polygon.AreaSquareMetres, piles, spacing, second)), []);
    }

    private static LayoutResult TooMany(double expected) => new(null, [new LayoutProblem(
        "Outline", string.Create(CultureInfo.InvariantCulture, $"about {expected:0} piles"), string.Create(CultureInfo.InvariantCulture, $"at most {MostPiles} piles in one layout: a smaller outline or a wider spacing"))]);
}
