namespace SiteProgress.Jobs.Piles;

/// <summary>Finds the pile numbers a person may have meant.</summary>
public static class NearNumbers
{
    /// <summary>The number without what is easily typed another way: case, hyphens, blanks, leading zeros.</summary>
    public static string Plain(string number)
    {
        List<char> plain = [];
        bool inDigits = false;
        foreach (char letter in number)
        {
            if (!char.IsLetterOrDigit(letter))
            {
                inDigits = false;
                continue;
            }

            bool digit = char.IsAsciiDigit(letter);
            if (letter == '0' && !inDigits) continue;
            inDigits = digit;
            plain.Add(char.ToUpperInvariant(letter));
        }

        return new string([.. plain]);
    }

    /// <summary>Changes of one letter it takes to turn one text into the other (Levenshtein distance; V. I. Levenshtein, 1966).</summary>
    public static int Changes(string first, string second)
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        int[] before = Enumerable.Range(0, second.Length + 1).ToArray();
        int[] now = new int[second.Length + 1];
        for (int row = 1; row <= first.Length; row++)
        {
            now[0] = row;
            for (int column = 1; column <= second.Length; column++)
            {
                int same = before[column - 1] + (first[row - 1] == second[column - 1] ? 0 : 1);
                now[column] = Math.Min(same, Math.Min(before[column], now[column - 1]) + 1);
            }

            (before, now) = (now, before);
        }

        return before[second.Length];
    }

    /// <summary>The numbers nearest to what was typed, nearest first.</summary>
    /// <param name="typed">What was typed.</param>
    /// <param name="numbers">All numbers.</param>
    /// <param name="most">How many are wanted.</param>
    public static IReadOnlyList<string> Of(string typed, IEnumerable<string> numbers, int most)
    {
        string wanted = Plain(typed);
        return numbers
            .Select(number => (Number: number, Distance: Changes(wanted, Plain(number))))
            .Where(one => one.Distance <= Math.Max(2, wanted.Length / 2))
            .OrderBy(one => one.Distance)
            .ThenBy(one => one.Number, StringComparer.Ordinal)
            .Take(most)
            .Select(one => one.Number)
            .ToArray();
    }
}
