using System.Text;

namespace SiteProgress.Core.Records;

/// <summary>A name of a record, a state or an answer as words: in small letters and parted by spaces, as <c>accepted with concession</c>.</summary>
public static class NameWords
{
    /// <summary>The words of a name of an enumeration.</summary>
    public static string Of(Enum name)
    {
        ArgumentNullException.ThrowIfNull(name);
        return Of(name.ToString());
    }

    /// <summary>The words of a name that begins each of them with a capital.</summary>
    public static string Of(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        StringBuilder words = new();
        foreach (char letter in name)
        {
            if (char.IsUpper(letter) && words.Length > 0) words.Append(' ');
            words.Append(char.ToLowerInvariant(letter));
        }

        return words.ToString();
    }
}
