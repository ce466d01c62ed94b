using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Accounts;
using SiteProgress.Jobs.Sites;

namespace SiteProgress.Web.Commands;

/// <summary>Opens a site from its settings file and control points.</summary>
internal sealed class OpenSiteCommand : ICommand
{
    public string Name => "open-site";

    public string Arguments => "SITE.json CONTROL-POINTS.csv [DRAWING.geojson]";

    public string Summary => "opens a site from its settings, the control points of its grid, and its drawing";

    public async Task<int> RunAsync(CommandCall call)
    {
        if (call.Words.Count is not (2 or 3)) call.Take(2);
        await using OwnerWork work = OwnerWork.Begin(call);
        OpenSiteResult opened = await work.Services.GetRequiredService<OpenSiteFromFiles>().RunAsync(
            call.Words[0], call.Words[1], call.Words.ElementAtOrDefault(2), CancellationToken.None);
        if (opened.Refusal is { } refusal) throw new CommandFailedException(refusal);
        await call.Output.WriteLineAsync($"Opened the site {opened.Code}. Nobody has a role on it yet: use grant-role.");
        return 0;
    }
}

/// <summary>Grants a role on a site.</summary>
internal sealed class GrantRoleCommand : ICommand
{
    public string Name => "grant-role";

    public string Arguments => "SITE EMAIL ROLE";

    public string Summary => $"grants a role on a site: {string.Join(", ", Enum.GetNames<Role>())}";

    public async Task<int> RunAsync(CommandCall call)
    {
        IReadOnlyList<string> words = call.Take(3);
        if (!Enum.TryParse(words[2], ignoreCase: true, out Role role) || !Enum.IsDefined(role))
        {
            throw new CommandFailedException($"'{words[2]}' is no role; the roles are {string.Join(", ", Enum.GetNames<Role>())}.");
        }

        using IServiceScope work = call.Work();
        Guid account = await work.ServiceProvider.GetRequiredService<FindAccount>().RunAsync(words[1])
            ?? throw new CommandFailedException($"There is no account with the address {words[1]}.");
        string? refusal = await work.ServiceProvider.GetRequiredService<GrantRole>().RunAsOperatorAsync(words[0], account, role, CancellationToken.None);
        if (refusal is not null) throw new CommandFailedException(refusal);
        await call.Output.WriteLineAsync($"{words[1]} is now {role} on {words[0]}.");
        return 0;
    }
}
