namespace SiteProgress.Jobs.Recording;

/// <summary>What a text must be that is kept with a record: a reason, a comment.</summary>
internal static class ReasonText
{
    /// <summary>Longest text, characters.</summary>
    public const int MostCharacters = 1000;

    /// <summary>Why a text is of no use; null when it is.</summary>
    /// <param name="text">The text as sent.</param>
    /// <param name="what">What it is, as a sentence begins with it.</param>
    public static string? WhyNot(string? text, string what = "The reason")
        => string.IsNullOrWhiteSpace(text) ? $"{what} is missing; it is kept with the record."
            : text.Trim().Length > MostCharacters ? FormattableString.Invariant($"{what} is longer than {MostCharacters} characters; say it shorter.")
            : null;
}
