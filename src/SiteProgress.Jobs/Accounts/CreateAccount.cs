using System.Net.Mail;
using Microsoft.AspNetCore.Identity;
using SiteProgress.Jobs.Access;
using SiteProgress.Storage.Accounts;

namespace SiteProgress.Jobs.Accounts;

/// <summary>Makes an account. Nobody registers themselves: an operator or the first administrator's link calls this.</summary>
[WithoutPermit("An account belongs to no site; the operator at the machine makes it.")]
public sealed class CreateAccount(UserManager<Account> accounts)
{
    /// <summary>Makes an account.</summary>
    /// <param name="name">Name shown beside what the person does.</param>
    /// <param name="email">Address the person signs in with.</param>
    /// <param name="password">Password; null where the person is to set it by a one-use link.</param>
    /// <returns>The account, or why it was not made: no name, no address, an address in use, a short password.</returns>
    public async Task<AccountAnswer> RunAsync(string name, string email, string? password)
    {
        name = name.Trim();
        email = email.Trim();
        if (name.Length is 0 or > 200) return AccountAnswer.Refused("A name is needed, of at most 200 characters.");
        if (email.Length > 250 || !MailAddress.TryCreate(email, out MailAddress? address) || address.Address != email)
            return AccountAnswer.Refused($"\"{email}\" is not an e-mail address; expected is something like name@example.org.");
        if (await accounts.FindByEmailAsync(email) is not null)
            return AccountAnswer.Refused($"There is an account with the address {email} already.");
        Account account = new() { Id = Guid.NewGuid(), UserName = email, Email = email, DisplayName = name };
        IdentityResult made = password is null
            ? await accounts.CreateAsync(account)
            : await accounts.CreateAsync(account, password);
        return made.Succeeded ? AccountAnswer.Done(account.Id) : AccountAnswer.Refused(PasswordRules.Sentence(made));
    }
}
