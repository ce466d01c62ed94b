namespace SiteProgress.Jobs.Recording;

/// <summary>What a text must be that is kept with a record: a reason, a comment.</summary>
internal static class ReasonText
{
    /// <summary>Longest text, characters.</summary>
    public const int MostCharacters = 1000;

    /// <summary>Longest text of a treatment, where the person decides at length, characters.</summary>
    public const int MostCharactersOfTreatment = 2000;

    /// <summary>Why a text is of no use; null when it is.</summary>
    /// <param name="text">The text as sent.</param>
    /// <param name="what">What it is, as a sentence begins with it.</param>
    /// <param name="needed">False where it may be left out.</param>
    /// <param name="most">Longest text, characters.</param>
    public static string? WhyNot(string? text, string what = "The reason", bool needed = true, int most = MostCharacters)
        => string.IsNullOrWhiteSpace(text) ? needed ? $"{what} is missing; it is kept with the record." : null
            : text.Trim().Length > most ? FormattableString.Invariant($"{what} is longer than {most} characters; say it shorter.")
            : null;
}
