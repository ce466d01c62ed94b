using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.DependencyInjection;
using SiteProgress.Storage;
using SiteProgress.Storage.Accounts;

namespace SiteProgress.Jobs.Accounts;

/// <summary>Puts accounts into a service collection, with the rules that hold for all of them.</summary>
public static class AccountServices
{
    /// <summary>Least length of a password, characters. Length is what counts; no kinds of characters are demanded.</summary>
    public static int LeastPasswordLength => 12;

    /// <summary>Wrong passwords in a row after which an account is locked for a while.</summary>
    public static int AttemptsBeforeLockOut => 5;

    /// <summary>How long it is locked.</summary>
    public static TimeSpan LockOut => TimeSpan.FromMinutes(15);

    /// <summary>Accounts in the store, without anything of the web.</summary>
    public static IdentityBuilder AddAccounts(this IServiceCollection services)
        => services.AddIdentityCore<Account>(options =>
        {
            options.User.RequireUniqueEmail = true;
            options.Password.RequiredLength = LeastPasswordLength;
            options.Password.RequiredUniqueChars = 1;
            options.Password.RequireDigit = false;
            options.Password.RequireLowercase = false;
            options.Password.RequireUppercase = false;
            options.Password.RequireNonAlphanumeric = false;
            options.Lockout.AllowedForNewUsers = true;
            options.Lockout.MaxFailedAccessAttempts = AttemptsBeforeLockOut;
            options.Lockout.DefaultLockoutTimeSpan = LockOut;
            // A user name is an e-mail address; Identity's own list of letters would refuse some of those.
            options.User.AllowedUserNameCharacters = "";
        }).AddEntityFrameworkStores<SiteProgressDb>();
}
