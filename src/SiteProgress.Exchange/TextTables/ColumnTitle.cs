namespace SiteProgress.Exchange.TextTables;

/// <summary>A title of a column taken apart.</summary>
/// <param name="Name">Its words, normalised.</param>
/// <param name="Unit">Its unit with what is written beside it, where one is written: "m", "m CD", "UTC".</param>
internal readonly record struct ColumnTitle(string Name, string? Unit)
{
    private static readonly HashSet<string> UnitWords = new(StringComparer.OrdinalIgnoreCase)
    {
        "m", "mm", "cm", "m3", "m\u00B3", "m^3", "cbm", "cum", "cu.m", "ft", "deg", "deg.", "\u00B0", "degrees", "m/min", "m/s", "cm/s", "%", "kPa", "bar",
        "mtr", "mtrs", "metres", "meters", "litres", "UTC", "GMT",
    };

    /// <summary>The first of the ways to take a title apart.</summary>
    /// <param name="title">The title.</param>
    public static ColumnTitle Of(string title) => Readings(title)[0];

    /// <summary>
    /// The ways to take a title apart, the likeliest first: "Tip level [m]", "Tip level (mCD)", "Tip (m) above CD", "Tip level, m",
    /// "tip_level_m", "Sand/m3"; brackets that hold no unit but a word of the title: "Heading (true)".
    /// </summary>
    /// <param name="title">The title.</param>
    /// <returns>At least one.</returns>
    public static IReadOnlyList<ColumnTitle> Readings(string title)
    {
        var text = title.Trim();
        var open = text.LastIndexOfAny(['[', '(']);
        var close = open < 0 ? -1 : text.IndexOfAny([']', ')'], open);
        if (open > 0 && close > open)
            return OfBrackets(text[..open], text[(open + 1)..close].Trim(), text[(close + 1)..].Trim());
        return OfLastWords(text) is { } parted ? [parted, Whole(text)] : [Whole(text)];
    }

    private static ColumnTitle Whole(string text) => new(TableLayout.Normalise(text), null);

    private static List<ColumnTitle> OfBrackets(string before, string within, string after)
    {
        var readings = new List<ColumnTitle>();
        if (after.Length == 0)
            readings.Add(new ColumnTitle(TableLayout.Normalise(before), within));
        else if (IsBesideUnit(after))
            readings.Add(new ColumnTitle(TableLayout.Normalise(before), $"{within} {after}"));
        readings.Add(new ColumnTitle(TableLayout.Normalise(before + after), within));
        // "Tip level m (as built)" has its unit before the brackets.
        if (OfLastWords(before.Trim()) is { } parted)
            readings.Add(new ColumnTitle(parted.Name + TableLayout.Normalise(within + after), parted.Unit));
        readings.Add(Whole(before + within + after));
        return readings;
    }

    private static ColumnTitle? OfLastWords(string text)
    {
        var words = text.Replace("/m3", " m3", StringComparison.OrdinalIgnoreCase).Replace("/m\u00B3", " m\u00B3", StringComparison.Ordinal)
            .Split([' ', '_', ',', '\t', '\n', '\r', '\u00A0'], StringSplitOptions.RemoveEmptyEntries);
        for (var at = 1; at < words.Length; at++)
        {
            var beside = string.Join(' ', words[(at + 1)..]);
            var cubic = words[at] is "cu" or "cu." && beside is "m" or "m.";
            if (cubic || ((UnitWords.Contains(words[at]) || HasDatum(words[at])) && (beside.Length == 0 || IsBesideUnit(beside))))
                return new ColumnTitle(TableLayout.Normalise(string.Concat(words[..at])), cubic ? "cu m" : $"{words[at]} {beside}".Trim());
        }

        return null;
    }

    /// <summary>"mCD", "mLAT": the unit and a datum in one word.</summary>
    private static bool HasDatum(string word) => word.Length >= 3 && word[0] == 'm' && word[1..].All(char.IsAsciiLetterUpper);

    /// <summary>What may follow a unit: a datum in capitals, or a surface.</summary>
    private static bool IsBesideUnit(string words)
        => LevelUnit.SaysSurface(words) || words.All(letter => char.IsAsciiLetterUpper(letter) || char.IsAsciiDigit(letter) || letter is '+' or '-' or ' ');
}
