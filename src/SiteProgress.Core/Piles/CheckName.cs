namespace SiteProgress.Core.Piles;

/// <summary>The questions asked of every pile, and the one asked of every account of a sand.</summary>
public enum CheckName
{
    /// <summary>Is the casing axis within the radial limit of its design position?</summary>
    Position = 1,

    /// <summary>Is the as-built top within the limit of the design top level?</summary>
    Top = 2,

    /// <summary>Is the tip rule met?</summary>
    Tip = 3,

    /// <summary>Is there as much sand in the pile as designed?</summary>
    Sand = 4,

    /// <summary>Is the least equivalent diameter along the pile large enough? Needs a log.</summary>
    LeastDiameter = 5,

    /// <summary>Is the casing upright enough?</summary>
    Verticality = 6,

    /// <summary>Is the pile without a gap? Needs a log.</summary>
    Continuity = 7,

    /// <summary>Are the times of the record there, and in order?</summary>
    Times = 8,

    /// <summary>Do the log, the record and the charges agree on the sand? Asked where the site sets a limit and there is a log.</summary>
    SandAgreement = 9,

    /// <summary>Does an account of a sand agree with what the piles used? Asked of the account from one measured stock to the next, never of a pile.</summary>
    SandAccount = 10,
}

/// <summary>Which of the questions are asked of what.</summary>
public static class CheckNames
{
    /// <summary>Those asked of piles, in the order in which they are shown.</summary>
    public static IReadOnlyList<CheckName> OfPiles { get; } = [.. Enum.GetValues<CheckName>().Where(IsOfPiles)];

    /// <summary>True for a question that is asked of piles.</summary>
    public static bool IsOfPiles(this CheckName check) => check != CheckName.SandAccount;
}
