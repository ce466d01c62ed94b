namespace SiteProgress.Jobs.Accounts;

/// <summary>What became of a change to an account: the account, or the reason there is none, as a sentence for people.</summary>
/// <param name="Account">The account; null when nothing was changed.</param>
/// <param name="Problem">Why nothing was changed; null when it was.</param>
public sealed record AccountAnswer(Guid? Account, string? Problem)
{
    internal static AccountAnswer Done(Guid account) => new(account, null);

    internal static AccountAnswer Refused(string problem) => new(null, problem);
}
