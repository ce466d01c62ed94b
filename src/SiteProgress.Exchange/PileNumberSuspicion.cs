using System.Globalization;
using System.Text;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange;

/// <summary>How a pile number was probably changed on its way, most often by a spreadsheet.</summary>
public enum NumberMangling
{
    /// <summary>Zeros in front were lost: 0012 became 12.</summary>
    ZerosLost = 1,

    /// <summary>A number like a date became one: 3-12 became 3-Dec or 2026-12-03.</summary>
    BecameDate = 2,

    /// <summary>A number like a power of ten became one: 12E05 became 1200000.</summary>
    BecamePower = 3,

    /// <summary>Full-width letters or digits, which look like others and are not.</summary>
    FullWidth = 4,

    /// <summary>A letter for a digit that looks like it, or the reverse: O for 0, I for 1.</summary>
    LookAlike = 5,

    /// <summary>Hyphens, blanks, points or the case of letters differ.</summary>
    Punctuation = 6,
}

/// <summary>
/// Pile numbers that are not in the design as written, and are when one change is undone. It decides nothing: a person looks.
/// </summary>
/// <param name="Mangling">What was probably done to them.</param>
/// <param name="Numbers">Numbers as written, with the number of the design that each would be; each stands for exactly one.</param>
/// <param name="Text">The suspicion with its evidence, as a sentence for a person.</param>
public sealed record PileNumberSuspicion(NumberMangling Mangling, IReadOnlyList<(string Written, string Meant)> Numbers, string Text)
{
    private const int MostNamed = 5;

    private static readonly (NumberMangling Mangling, string Words, Func<string, IEnumerable<string>> Keys)[] Ways =
    [
        (NumberMangling.FullWidth, "full-width characters are made plain ones", number => [number.Normalize(NormalizationForm.FormKC)]),
        (NumberMangling.Punctuation, "hyphens, blanks, points and the case of letters are put aside", number => [Bare(number)]),
        (NumberMangling.ZerosLost, "lost zeros in front are put back", number => [WithoutZeros(number)]),
        (NumberMangling.BecameDate, "dates are read as the numbers they were made from", Dates),
        (NumberMangling.BecamePower, "powers of ten are written as the number had them", Powers),
        (NumberMangling.LookAlike, "letters and digits that look alike are taken for each other", number => [LookAlikes(number)]),
    ];

    /// <summary>Judges numbers against a design.</summary>
    /// <param name="written">Numbers as written.</param>
    /// <param name="design">Numbers of the design.</param>
    /// <returns>At most one suspicion for each way of changing a number; a number is told once, by the first way that explains it.</returns>
    public static IReadOnlyList<PileNumberSuspicion> Judge(IEnumerable<string> written, IReadOnlyCollection<string> design)
    {
        ArgumentNullException.ThrowIfNull(written);
        ArgumentNullException.ThrowIfNull(design);
        var known = design.ToHashSet(StringComparer.OrdinalIgnoreCase);
        var open = written.Where(number => !known.Contains(number.Trim())).Distinct(StringComparer.Ordinal).ToList();
        var suspicions = new List<PileNumberSuspicion>();
        foreach (var (mangling, words, keys) in open.Count == 0 ? [] : Ways)
        {
            var byKey = design.SelectMany(number => keys(number).Select(key => (Key: key, Number: number))).ToLookup(one => one.Key, one => one.Number, StringComparer.OrdinalIgnoreCase);
            var found = open.Select(number => (Written: number, Meant: Only(keys(number).SelectMany(key => byKey[key])))).Where(one => one.Meant is not null).Select(one => (one.Written, one.Meant!)).ToArray();
            if (found.Length == 0)
                continue;
            suspicions.Add(new PileNumberSuspicion(mangling, found, Sentence(found, words)));
            var told = found.Select(one => one.Written).ToHashSet(StringComparer.Ordinal);
            open.RemoveAll(told.Contains);
        }

        return suspicions;
    }

    private static string? Only(IEnumerable<string> numbers) => numbers.Distinct(StringComparer.OrdinalIgnoreCase).Take(2).ToArray() is [{ } one] ? one : null;

    private static string Sentence((string Written, string Meant)[] found, string words)
    {
        var named = string.Join(", ", found.Take(MostNamed).Select(one => $"{ImportProblem.Shorten(one.Written)} would be {one.Meant}"));
        var more = found.Length > MostNamed ? string.Create(CultureInfo.InvariantCulture, $", and {found.Length - MostNamed} more") : "";
        return string.Create(CultureInfo.InvariantCulture, $"{found.Length} pile {(found.Length == 1 ? "number is" : "numbers are")} not in the design as written, and {(found.Length == 1 ? "is" : "are")} when {words}: {named}{more}.");
    }

    private static string Bare(string number) => string.Concat(number.Where(char.IsLetterOrDigit)).ToUpperInvariant();

    /// <summary>Each run of digits without zeros in front.</summary>
    private static string WithoutZeros(string number)
    {
        var text = new StringBuilder(number.Length);
        var inDigits = false;
        for (var at = 0; at < number.Length; at++)
        {
            var isDigit = char.IsAsciiDigit(number[at]);
            if (number[at] == '0' && !inDigits && at + 1 < number.Length && char.IsAsciiDigit(number[at + 1]))
                continue;
            inDigits = isDigit;
            text.Append(number[at]);
        }

        return text.ToString();
    }

    private static string LookAlikes(string number)
        => string.Concat(number.ToUpperInvariant().Select(letter => letter switch { 'O' => '0', 'I' or 'L' => '1', 'S' => '5', 'B' => '8', _ => letter }));

    /// <summary>Month and day in the order in which they are written, and the other; a number of two parts is both itself.</summary>
    private static string[] Dates(string number)
    {
        if (PileNumberRule.DayAndMonth(number) is var (day, month))
            return Pair(day, month);
        var parts = number.Split('-', '/', '.');
        return parts.Length == 2 && int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out var first)
            && int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out var second)
            && Math.Min(first, second) is >= 1 and <= 12 && Math.Max(first, second) <= 31
            ? Pair(first, second)
            : [];
    }

    private static string[] Pair(int one, int other)
        => [string.Create(CultureInfo.InvariantCulture, $"{Math.Min(one, other)}/{Math.Max(one, other)}")];

    private static string[] Powers(string number)
    {
        var digits = number.All(letter => char.IsAsciiDigit(letter) || letter is 'E' or 'e' or '+' or '.') && number.Any(char.IsAsciiDigit);
        return digits && double.TryParse(number, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value)
            ? [value.ToString("R", CultureInfo.InvariantCulture)]
            : [];
    }
}
