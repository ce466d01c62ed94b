namespace SiteProgress.Jobs.Design;

/// <summary>
/// A layout as people ask for it, in the texts of a form or an address. What is left out is taken from the zone's design; metres, degrees
/// and levels as plain numbers.
/// </summary>
/// <param name="Zone">Code of the zone.</param>
/// <param name="Corners">Corners on the site grid, two numbers a line; a blank line begins a part that is left out.</param>
/// <param name="Pattern">square, rectangular or triangular.</param>
/// <param name="Spacing">Spacing along the row.</param>
/// <param name="Second">Spacing across the rows of a rectangular pattern.</param>
/// <param name="Ratio">Replacement ratio from which a spacing that is left out follows.</param>
/// <param name="X">First coordinate of a place of the pattern.</param>
/// <param name="Y">Second coordinate.</param>
/// <param name="Turn">Direction of the rows, from the first axis towards the second.</param>
/// <param name="Edge">How far inside the boundary a centre lies at least.</param>
/// <param name="Diameter">Design diameter.</param>
/// <param name="Top">Design top level.</param>
/// <param name="Tip">Design tip level.</param>
/// <param name="Length">Least length.</param>
/// <param name="Numbers">Pattern of the numbers.</param>
/// <param name="FirstRow">Number of the first row.</param>
/// <param name="RowStep">From row to row.</param>
/// <param name="First">First number.</param>
/// <param name="Step">From pile to pile.</param>
/// <param name="Order">same or serpentine.</param>
/// <param name="Places">row: places counted in each row; column: by the columns of the grid.</param>
/// <param name="Begin">Corner of the first pile: near-start, near-end, far-start or far-end of the rows.</param>
/// <param name="Replaces">yes where the layout takes the place of what is planned in the zone; no where it is added to it.</param>
public sealed record LayoutTexts(
    string? Zone = null,
    string? Corners = null,
    string? Pattern = null,
    string? Spacing = null,
    string? Second = null,
    string? Ratio = null,
    string? X = null,
    string? Y = null,
    string? Turn = null,
    string? Edge = null,
    string? Diameter = null,
    string? Top = null,
    string? Tip = null,
    string? Length = null,
    string? Numbers = null,
    string? FirstRow = null,
    string? RowStep = null,
    string? First = null,
    string? Step = null,
    string? Order = null,
    string? Places = null,
    string? Begin = null,
    string? Replaces = null)
{
    /// <summary>Words of patterns.</summary>
    public static IReadOnlyList<(Core.Piles.Pattern Value, string Word)> Patterns { get; } =
        [(Core.Piles.Pattern.Square, "square"), (Core.Piles.Pattern.Rectangular, "rectangular"), (Core.Piles.Pattern.Triangular, "triangular")];

    /// <summary>Words of corners.</summary>
    public static IReadOnlyList<(bool RowsBackwards, bool PilesBackwards, string Word)> Begins { get; } =
        [(false, false, "near-start"), (false, true, "near-end"), (true, false, "far-start"), (true, true, "far-end")];

    /// <summary>The texts as parts of an address, in its order.</summary>
    public IEnumerable<(string Name, string? Value)> Pairs() =>
    [
        ("zone", Zone), ("corners", Corners), ("pattern", Pattern), ("spacing", Spacing), ("second", Second), ("ratio", Ratio), ("x", X), ("y", Y), ("turn", Turn), ("edge", Edge),
        ("diameter", Diameter), ("top", Top), ("tip", Tip), ("length", Length), ("numbers", Numbers), ("firstRow", FirstRow), ("rowStep", RowStep), ("first", First), ("step", Step),
        ("order", Order), ("places", Places), ("begin", Begin), ("replaces", Replaces),
    ];
}
