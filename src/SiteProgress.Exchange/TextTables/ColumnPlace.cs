namespace SiteProgress.Exchange.TextTables;

/// <summary>Where a column of a layout stands in a file, and how its numbers are written there.</summary>
internal sealed record ColumnPlace
{
    /// <summary>Number of the cell, from 0; -1 where one value holds for all rows.</summary>
    public required int Cell { get; init; }

    /// <summary>The value that holds for all rows; null where the column stands in the file.</summary>
    public string? Fixed { get; init; }

    /// <summary>Factor from the unit of the file to the unit of the column.</summary>
    public double Factor { get; init; } = 1;

    /// <summary>Unit as the file or a person names it; null where neither does.</summary>
    public string? Unit { get; init; }

    /// <summary>True where the numbers are counted down from a surface.</summary>
    public bool IsDepth { get; init; }

    /// <summary>Datum the title names beside the unit; null where it names none.</summary>
    public string? Datum { get; init; }
}

/// <summary>A title of a column taken apart.</summary>
/// <param name="Name">Its words, normalised.</param>
/// <param name="Unit">Its unit, where one is written.</param>
internal readonly record struct ColumnTitle(string Name, string? Unit)
{
    private static readonly string[] BareUnits = ["m", "mm", "cm", "m3", "ft", "deg", "m/min"];

    /// <summary>Splits a title into its words and its unit: "Tip level [m]", "Tip level (mCD)", "Tip level, m", "tip_level_m".</summary>
    /// <param name="title">The title.</param>
    public static ColumnTitle Of(string title)
    {
        var text = title.Trim();
        var open = text.LastIndexOfAny(['[', '(']);
        if (open >= 0 && text.Length > open + 1 && text[^1] is ']' or ')')
            return new ColumnTitle(TableLayout.Normalise(text[..open]), text[(open + 1)..^1]);

        var last = text.LastIndexOfAny([',', ' ', '_']);
        return last > 0 && BareUnits.Contains(text[(last + 1)..].Trim(), StringComparer.Ordinal)
            ? new ColumnTitle(TableLayout.Normalise(text[..last]), text[(last + 1)..].Trim())
            : new ColumnTitle(TableLayout.Normalise(text), null);
    }

    /// <summary>Parts a datum from the unit before it: "mCD", "m CD", "m above CD".</summary>
    /// <param name="unit">Unit as written.</param>
    /// <returns>The unit, and the datum where one follows it.</returns>
    public static (string Unit, string? Datum) Datum(string unit)
    {
        var text = unit.Trim();
        foreach (var length in new[] { 2, 1 })
        {
            if (text.Length <= length || text[..length] is not ("m" or "mm" or "cm" or "ft") || char.IsLower(text[length]) || text[length] == '/')
                continue;
            var datum = text[length..].Trim(' ', '+', '-', ',', ';');
            if (datum.StartsWith("above ", StringComparison.OrdinalIgnoreCase))
                datum = datum[6..].Trim();
            if (datum.Any(char.IsLetter))
                return (text[..length], datum);
        }

        return (text, null);
    }
}
