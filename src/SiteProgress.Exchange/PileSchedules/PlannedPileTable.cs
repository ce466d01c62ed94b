using SiteProgress.Core.Piles;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.PileSchedules;

/// <summary>Writes planned piles as a pile schedule, in the columns by which one is read.</summary>
public static class PlannedPileTable
{
    /// <summary>Writes head and rows; coordinates, levels and lengths in metres to the millimetre.</summary>
    /// <param name="table">Where to.</param>
    /// <param name="axes">Names of the axes of the site grid.</param>
    /// <param name="piles">The piles, on the site grid.</param>
    public static void Write(TableWriter table, GridAxes axes, IEnumerable<PlannedPile> piles)
    {
        ArgumentNullException.ThrowIfNull(table);
        ArgumentNullException.ThrowIfNull(axes);
        ArgumentNullException.ThrowIfNull(piles);
        table.Header("Pile No", "Zone", $"{axes.First} [m]", $"{axes.Second} [m]", "Diameter [m]", "Top level [m]", "Tip level [m]", "Min length [m]", "Remark");
        foreach (PlannedPile pile in piles)
        {
            table.Text(pile.Number).Text(pile.Zone).Number(pile.Position.XMetres, 3).Number(pile.Position.YMetres, 3).Number(pile.DiameterMetres, 3)
                .Number(pile.TopLevelMetres, 3).Number(pile.TipLevelMetres, 3).Number(pile.LeastLengthMetres, 3).Text(pile.Remark).EndRow();
        }
    }

    /// <summary>The first number that a site does not allow, with what is allowed; null where all are.</summary>
    /// <param name="characters">Characters allowed in a pile number, as <see cref="SiteSettings.PileNumberCharacters"/>.</param>
    /// <param name="numbers">The numbers, not blank.</param>
    public static (string Number, string Expected)? NotAllowed(string characters, IEnumerable<string> numbers)
    {
        ArgumentNullException.ThrowIfNull(numbers);
        PileNumberRule rule = new(characters);
        foreach (string number in numbers)
        {
            if (rule.Judge(number, out _) is { } expected) return (number, expected);
        }

        return null;
    }
}
