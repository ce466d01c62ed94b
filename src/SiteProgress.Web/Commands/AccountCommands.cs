using SiteProgress.Jobs.Accounts;

namespace SiteProgress.Web.Commands;

/// <summary>Makes an account and prints the link by which its person sets a password.</summary>
internal sealed class CreateAccountCommand : ICommand
{
    public string Name => "create-account";

    public string Arguments => "NAME EMAIL";

    public string Summary => "makes an account and prints a one-use link to set its password";

    public async Task<int> RunAsync(CommandCall call)
    {
        IReadOnlyList<string> words = call.Take(2);
        using IServiceScope work = call.Work();
        AccountAnswer made = await work.ServiceProvider.GetRequiredService<CreateAccount>().RunAsync(words[0], words[1], password: null);
        if (made.Problem is { } problem) throw new CommandFailedException(problem);
        await call.Output.WriteLineAsync($"Made the account {words[1].Trim()}.");
        return await PasswordLinkCommand.PrintAsync(call, words[1], work);
    }
}

/// <summary>Prints a link by which the person of an account sets a new password.</summary>
internal sealed class PasswordLinkCommand : ICommand
{
    public string Name => "password-link";

    public string Arguments => "EMAIL";

    public string Summary => "prints a one-use link by which the person sets a new password";

    public async Task<int> RunAsync(CommandCall call)
    {
        using IServiceScope work = call.Work();
        return await PrintAsync(call, call.Take(1)[0], work);
    }

    internal static async Task<int> PrintAsync(CommandCall call, string email, IServiceScope work)
    {
        string secret = await work.ServiceProvider.GetRequiredService<PasswordLinks>().MakeAsync(email)
            ?? throw new CommandFailedException($"There is no open account with the address {email.Trim()}.");
        await call.Output.WriteLineAsync(
            $"Give the person this link; it works once, for {PasswordLinks.Lasts.TotalHours:0} hours:");
        await call.Output.WriteLineAsync($"{CommandAddress.Of(call)}/set-password?link={secret}");
        return 0;
    }
}

/// <summary>Prints the link by which the first account of an empty store is made.</summary>
internal sealed class FirstAdministratorCommand : ICommand
{
    public string Name => "first-administrator";

    public string Arguments => "";

    public string Summary => "on a store without accounts: prints a one-use link, for this machine only, that makes the first";

    public async Task<int> RunAsync(CommandCall call)
    {
        call.Take(0);
        using IServiceScope work = call.Work();
        string secret = await work.ServiceProvider.GetRequiredService<FirstAdministrator>().MakeLinkAsync()
            ?? throw new CommandFailedException("The store has an account already; use create-account, or password-link for a lost password.");
        await call.Output.WriteLineAsync("Open this link in a browser on this machine; it works once, for one hour:");
        await call.Output.WriteLineAsync($"{CommandAddress.Of(call)}/first-administrator?link={secret}");
        return 0;
    }
}

/// <summary>Closes an account.</summary>
internal sealed class CloseAccountCommand : ICommand
{
    public string Name => "close-account";

    public string Arguments => "EMAIL";

    public string Summary => "closes an account; its sessions and tokens stop within seconds, its records stay";

    public async Task<int> RunAsync(CommandCall call)
    {
        string email = call.Take(1)[0];
        using IServiceScope work = call.Work();
        if (!await work.ServiceProvider.GetRequiredService<CloseAccount>().RunAsync(email))
            throw new CommandFailedException($"There is no account with the address {email.Trim()}.");
        await call.Output.WriteLineAsync($"Closed the account {email.Trim()}.");
        return 0;
    }
}

/// <summary>The address people reach the server at, for links that are printed.</summary>
internal static class CommandAddress
{
    /// <summary><c>SiteProgress:Address</c>, else the first of <c>urls</c>, else the server's own default.</summary>
    public static string Of(CommandCall call)
        => (call.Configuration["SiteProgress:Address"] is { Length: > 0 } address
            ? address
            : call.Configuration["urls"]?.Split(';')[0] ?? "http://localhost:5000").TrimEnd('/');
}
