namespace SiteProgress.Exchange.TextTables;

/// <summary>The unit of a level or depth with what it is counted from: "m", "mCD", "m above CD", "m below water", "m b.w.l.".</summary>
/// <param name="Unit">The unit alone.</param>
/// <param name="Above">Datum it is counted up from; null where none is named.</param>
/// <param name="Below">Surface it is counted down from; null where none is named.</param>
internal readonly record struct LevelUnit(string Unit, string? Above, string? Below)
{
    // The longer first: "mm" begins with "m".
    private static readonly string[] Lengths = ["metres", "meters", "mtr", "mm", "cm", "ft", "m"];
    private static readonly string[] UpWords = ["above ", "over ", "rel. to ", "relative to ", "rel ", "to "];
    private static readonly string[] DownWords = ["below ", "under ", "beneath ", "from "];

    /// <summary>Surfaces by their short names (common practice, no source).</summary>
    private static readonly Dictionary<string, string> ShortNames = new(StringComparer.Ordinal)
    {
        ["bwl"] = "water", ["bws"] = "water", ["bdl"] = "deck", ["bdk"] = "deck", ["bgl"] = "ground", ["bsb"] = "seabed", ["bcd"] = "CD", ["blat"] = "LAT", ["bmsl"] = "MSL",
    };

    /// <summary>True where words name a surface or a datum that something is counted from.</summary>
    /// <param name="words">Words beside a unit.</param>
    public static bool SaysSurface(string words)
        => ShortNames.ContainsKey(TableLayout.Normalise(words)) || UpWords.Concat(DownWords).Any(word => words.StartsWith(word, StringComparison.OrdinalIgnoreCase));

    /// <summary>Takes a unit apart.</summary>
    /// <param name="unit">Unit as written.</param>
    /// <returns>The unit alone where nothing stands beside it that is known here.</returns>
    public static LevelUnit Of(string unit)
    {
        var text = unit.Trim();
        var length = Array.Find(Lengths, one => text.StartsWith(one, StringComparison.OrdinalIgnoreCase));
        if (length is null)
            return SaysSurface(text) ? Beside("m", text) : new LevelUnit(text, null, null);
        var rest = text[length.Length..];
        if (rest.Length == 0)
            return new LevelUnit(length, null, null);
        var parted = rest.Length > 0 && (!char.IsLower(rest[0]) || ShortNames.ContainsKey(TableLayout.Normalise(rest))) && rest[0] != '/';
        return parted ? Beside(length, rest.Trim(' ', '+', '-', ',', ';')) : new LevelUnit(text, null, null);
    }

    private static LevelUnit Beside(string length, string words)
    {
        if (ShortNames.TryGetValue(TableLayout.Normalise(words), out var known))
            return new LevelUnit(length, null, known);
        if (Array.Find(DownWords, word => words.StartsWith(word, StringComparison.OrdinalIgnoreCase)) is { } down)
            return new LevelUnit(length, null, Surface(words[down.Length..].Trim()));
        var up = Array.Find(UpWords, word => words.StartsWith(word, StringComparison.OrdinalIgnoreCase));
        var datum = words[(up?.Length ?? 0)..].Trim();
        return datum.Any(char.IsLetter) ? new LevelUnit(length, datum, null) : new LevelUnit(length, null, null);
    }

    private static string Surface(string words) => TableLayout.Normalise(words) switch
    {
        "water" or "waterlevel" or "waterline" or "watersurface" or "wl" or "thewater" => "water",
        "deck" or "decklevel" or "bargedeck" or "maindeck" or "thedeck" => "deck",
        "antenna" or "theantenna" or "gnssantenna" => "antenna",
        _ => words,
    };
}
