namespace SiteProgress.Core.Design.Layouts;

/// <summary>How the piles of a layout are numbered.</summary>
/// <param name="Pattern">
/// The number with places to fill in: {count} runs through all piles, {row} is the number of the row, {letter} the row in letters (A to Z,
/// AA, AB, …), {place} the number of the pile in its row. A colon and a number say how many digits at least: B{row:2}-C{place:2} gives B07-C12.
/// </param>
/// <param name="FirstRow">Number of the first row that holds a pile.</param>
/// <param name="RowStep">From one row to the next.</param>
/// <param name="FirstPlace">Where {count} and {place} begin.</param>
/// <param name="PlaceStep">From one pile to the next.</param>
/// <param name="Serpentine">True where every second row is counted the other way.</param>
/// <param name="ByColumn">True where {place} is the column of the grid, so that it is the same in every row, gaps or not.</param>
/// <param name="RowsBackwards">True where the first row is the farthest one.</param>
/// <param name="PilesBackwards">True where the first row is counted against its direction.</param>
public sealed record NumberingRule(
    string Pattern,
    int FirstRow = 1,
    int RowStep = 1,
    int FirstPlace = 1,
    int PlaceStep = 1,
    bool Serpentine = false,
    bool ByColumn = false,
    bool RowsBackwards = false,
    bool PilesBackwards = false);
