namespace SiteProgress.Core.Piles;

/// <summary>What is to be done about findings.</summary>
public enum Disposition
{
    /// <summary>The pile stays as it is: a concession, with the designer's reference.</summary>
    UseAsIs = 1,

    /// <summary>The pile is repaired where it stands.</summary>
    RepairInPlace = 2,

    /// <summary>The pile is installed again at its place.</summary>
    InstallAgain = 3,

    /// <summary>Another pile is built in its stead; the original closes when that one is accepted.</summary>
    AdditionalPile = 4,
}

/// <summary>A check that is not met: of a pile, or of an account of a sand.</summary>
/// <param name="Pile">Pile number; empty where the finding is one of a sand account.</param>
/// <param name="Check">The check.</param>
/// <param name="Account">The sand account; null where the finding is one of a pile.</param>
public sealed record FindingName(string Pile, CheckName Check, SandAccountName? Account = null);

/// <summary>A finding as it stood when somebody wrote of it.</summary>
/// <param name="Pile">Pile number; empty where the finding is one of a sand account.</param>
/// <param name="Check">The check.</param>
/// <param name="Line">Verdict, value, limit and the records the pile stood on, as one line.</param>
/// <param name="Account">The sand account; null where the finding is one of a pile.</param>
public sealed record FindingShown(string Pile, CheckName Check, string Line, SandAccountName? Account = null);

/// <summary>A pile that is to be built in the stead of another. Metres; levels above the site's level datum.</summary>
/// <param name="Number">Its own number.</param>
/// <param name="Replaces">Number of the pile it replaces.</param>
/// <param name="XMetres">Design position, first axis of the site grid.</param>
/// <param name="YMetres">Design position, second axis of the site grid.</param>
/// <param name="DiameterMetres">Design diameter; that of the pile it replaces where left out.</param>
/// <param name="TopLevelMetres">Design top level; likewise.</param>
/// <param name="TipLevelMetres">Design tip level; likewise.</param>
public sealed record AdditionalPile(
    string Number,
    string Replaces,
    double XMetres,
    double YMetres,
    double? DiameterMetres = null,
    double? TopLevelMetres = null,
    double? TipLevelMetres = null);

/// <summary>A pile that was signed for, with the hash of exactly what was shown of it.</summary>
/// <param name="Number">Pile number.</param>
/// <param name="Sheet">SHA-256 of the canonical bytes of its sheet, 64 hexadecimal digits.</param>
public sealed record SignedPile(string Number, string Sheet);

/// <summary>The kind of a hold point: what has to be shown before work goes on.</summary>
public enum HoldPointKind
{
    /// <summary>Trial piles, before a zone begins.</summary>
    TrialPiles = 1,

    /// <summary>The first piles of a zone, before its other piles.</summary>
    FirstPiles = 2,

    /// <summary>The piles of an anchor position, before the anchors lift. Surveyor and owner's representative both sign.</summary>
    BeforeAnchorsLift = 3,

    /// <summary>One that the site set itself.</summary>
    OfTheSite = 4,
}
