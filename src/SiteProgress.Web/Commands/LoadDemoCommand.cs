using System.Security.Cryptography;
using System.Text.Json;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Accounts;
using SiteProgress.Jobs.Demo;
using SiteProgress.Jobs.Operation;

namespace SiteProgress.Web.Commands;

/// <summary>Loads the invented site into an empty store, with an account for each role when the store is a private one.</summary>
internal sealed class LoadDemoCommand : ICommand
{
    private static readonly Dictionary<Role, (string Name, string Email)> People = new()
    {
        [Role.ProjectManager] = ("Demo manager", "manager@sandlark.invalid"),
        [Role.Surveyor] = ("Demo surveyor", "surveyor@sandlark.invalid"),
        [Role.OwnersRepresentative] = ("Demo owner's representative", "owner@sandlark.invalid"),
        [Role.Administrator] = ("Demo administrator", "admin@sandlark.invalid"),
    };

    public string Name => "load-demo";

    public string Arguments => "SEED-FOLDER";

    public string Summary => "loads the invented demonstration site into a store that has no site yet";

    public async Task<int> RunAsync(CommandCall call)
    {
        string folder = call.Take(1)[0];
        if (!Directory.Exists(folder)) throw new CommandFailedException($"There is no folder {folder}.");
        if (!call.Configuration.GetValue<bool>("SiteProgress:PrivateCluster"))
        {
            throw new CommandFailedException("Demonstration accounts exist only in a private cluster on this machine; load-demo works with ./run alone.");
        }

        await using OwnerWork work = OwnerWork.Begin(call);
        if (await work.Services.GetRequiredService<CountSites>().RunAsync(CancellationToken.None) > 0)
        {
            await call.Output.WriteLineAsync("The store has a site already; the demonstration is not loaded.");
            return 0;
        }

        string password = Environment.GetEnvironmentVariable("SITEPROGRESS_DEMO_PASSWORD") is { Length: > 0 } chosen
            ? chosen
            : RandomNumberGenerator.GetString("abcdefghjkmnpqrstuvwxyz23456789", 16);
        Dictionary<Role, Guid> accounts = await MakeAccountsAsync(work.Services, password);
        string? refusal = await work.Services.GetRequiredService<LoadDemo>().RunAsync(folder, accounts, call.Output.WriteLine, CancellationToken.None);
        refusal ??= await work.Services.GetRequiredService<LoadDemoTreatment>().RunAsync(SiteCode(folder), accounts, call.Output.WriteLine, CancellationToken.None);
        if (refusal is not null) throw new CommandFailedException(refusal);
        string file = KeepPassword(Product.DataFolder(call.Configuration), password);
        await call.Output.WriteLineAsync($"Sign in as {string.Join(", ", People.Values.Select(person => person.Email))} with the password {password} (kept in {file}).");
        return 0;
    }

    private static async Task<Dictionary<Role, Guid>> MakeAccountsAsync(IServiceProvider services, string password)
    {
        Dictionary<Role, Guid> accounts = [];
        foreach ((Role role, (string name, string email)) in People)
        {
            // A load that broke off may have made the account already; it then gets a password by a link, not by this command.
            Guid? known = await services.GetRequiredService<FindAccount>().RunAsync(email);
            AccountAnswer made = known is null
                ? await services.GetRequiredService<CreateAccount>().RunAsync(name, email, password)
                : new AccountAnswer(known, null);
            accounts[role] = made.Account ?? throw new CommandFailedException(made.Problem!);
        }

        return accounts;
    }

    private static string SiteCode(string folder)
    {
        using JsonDocument settings = JsonDocument.Parse(File.ReadAllBytes(Path.Combine(folder, "site.json")));
        return settings.RootElement.GetProperty("code").GetString()!;
    }

    private static string KeepPassword(string folder, string password)
    {
        Directory.CreateDirectory(folder);
        string path = Path.Combine(folder, "demo-password");
        FileStreamOptions options = new() { Mode = FileMode.Create, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows()) options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        using StreamWriter writer = new(path, options);
        writer.WriteLine(password);
        return path;
    }
}
