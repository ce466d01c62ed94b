using System.Text;

namespace SiteProgress.Exchange.HandOver;

/// <summary>Names of states and answers as words of a table: those of the records, in small letters and parted by spaces.</summary>
internal static class PackageWords
{
    /// <summary>The words of a name.</summary>
    public static string Of(Enum name)
    {
        StringBuilder words = new();
        foreach (char letter in name.ToString())
        {
            if (char.IsUpper(letter) && words.Length > 0) words.Append(' ');
            words.Append(char.ToLowerInvariant(letter));
        }

        return words.ToString();
    }
}
