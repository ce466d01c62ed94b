using System.Text.Json.Nodes;
using Microsoft.Playwright;
using Npgsql;
using SiteProgress.TestSupport;
using Xunit;

namespace SiteProgress.Browser.Tests.MainJob;

/// <summary>
/// One published application in its Production form over a store of its own: the whole demonstration, which tests only read,
/// and sites without records, which a test opens for itself when it is going to change something.
/// </summary>
public sealed class ServedSites : IAsyncLifetime
{
    /// <summary>Name of the collection of all tests that use it; they run one after the other.</summary>
    public const string Collection = "the served sites";

    /// <summary>Code of the demonstration site.</summary>
    public const string Demo = "sandlark";

    /// <summary>The password of every account here.</summary>
    public const string Password = "nine-geese-over-the-mole";

    private readonly StoreOfPublishedWeb store = new();
    private readonly Dictionary<Person, string> sessions = [];
    private readonly string folder = Directory.CreateTempSubdirectory("siteprogress-browser-").FullName;
    private PublishedWeb? web;
    private IPlaywright? playwright;

    public IBrowser Browser { get; private set; } = null!;

    /// <summary>Where the application answers.</summary>
    public Uri Address => web!.Address;

    /// <summary>Everything the application has written so far.</summary>
    public string ServerLog => web?.Log ?? "";

    private Dictionary<string, string> Settings => new()
    {
        ["SiteProgress__DataFolder"] = folder,
        ["SiteProgress__PrivateCluster"] = "true",
        ["SITEPROGRESS_DEMO_PASSWORD"] = Password,
    };

    /// <summary>A file of the demonstration.</summary>
    public static string SeedFile(string name) => Path.Combine(Checkout.Folder, "seed-data", name);

    public async ValueTask InitializeAsync()
    {
        await store.InitializeAsync();
        await CommandAsync("load-demo", SeedFile(""));
        web = await PublishedWeb.StartAsync(store.Target, Settings);
        playwright = await Playwright.CreateAsync();
        Browser = await Chromium.LaunchAsync(playwright);
    }

    /// <summary>Starts a second web process on the same store and data folder, as an operator who serves with two.</summary>
    public Task<PublishedWeb> StartAnotherAsync() => PublishedWeb.StartAsync(store.Target, Settings);

    /// <summary>Cuts, in the store, the connections on which web processes listen for new records.</summary>
    /// <returns>How many there were.</returns>
    public async Task<long> CutListenersAsync()
    {
        await using var administrator = NpgsqlDataSource.Create(store.AdministratorConnectionString);
        // What such a connection said last: where every site stands, when it began; a word to see whether the store still answers, later.
        await using var cut = administrator.CreateCommand("""
            select count(pg_terminate_backend(pid)) from pg_stat_activity
            where datname = current_database() and (query like 'select site, sequence from derived.site_state order by site%' or query = 'select 1')
            """);
        return (long)(await cut.ExecuteScalarAsync())!;
    }

    /// <summary>Opens a site like the demonstration's but without any record.</summary>
    /// <param name="code">Its code, one that no other test uses.</param>
    /// <param name="people">Who gets their role on it.</param>
    public async Task OpenSiteAsync(string code, params Person[] people)
    {
        var settings = JsonNode.Parse(await File.ReadAllTextAsync(SeedFile("site.json")))!;
        settings["code"] = code;
        var file = Path.Combine(folder, code + ".json");
        await File.WriteAllTextAsync(file, settings.ToJsonString());
        await CommandAsync("open-site", file, SeedFile("control-points.csv"));
        foreach (var person in people) await CommandAsync("grant-role", code, person.Email, person.Role);
    }

    /// <summary>Runs one of the operator's commands on the store.</summary>
    /// <returns>What it wrote.</returns>
    /// <exception cref="InvalidOperationException">It failed; the message is what it wrote.</exception>
    public async Task<string> CommandAsync(params string[] words)
    {
        var result = await PublishedWeb.RunAsync(store.Target, words, Settings);
        return result.Status == 0
            ? result.Output
            : throw new InvalidOperationException($"{words[0]} ended with status {result.Status}: {result.Output}{result.Problems}");
    }

    /// <summary>The cookies of a signed-in person; they sign in on the page the first time.</summary>
    public async Task<string> SessionOfAsync(Person person)
    {
        if (sessions.TryGetValue(person, out var kept)) return kept;
        await using var context = await Browser.NewContextAsync(new() { BaseURL = Address.ToString() });
        var page = await context.NewPageAsync();
        await page.GotoAsync("/sign-in");
        await SignInFormAsync(page, person.Email, Password);
        try
        {
            // The first page after it may be long in loading; the session is there as soon as it begins to come.
            await page.WaitForURLAsync(url => !url.Contains("sign-in", StringComparison.Ordinal), new() { WaitUntil = WaitUntilState.Commit, Timeout = 120_000 });
        }
        catch (TimeoutException late)
        {
            throw new TimeoutException($"{person.Email} was not signed in; the page at {page.Url} says: {await page.Locator("body").InnerTextAsync()}", late);
        }

        return sessions[person] = await context.StorageStateAsync();
    }

    /// <summary>Fills in and sends the form of the sign-in page.</summary>
    public static async Task SignInFormAsync(IPage page, string email, string password)
    {
        await page.GetByLabel("E-mail address").FillAsync(email);
        await page.GetByLabel("Password").FillAsync(password);
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
    }

    public async ValueTask DisposeAsync()
    {
        if (Browser is not null) await Browser.DisposeAsync();
        playwright?.Dispose();
        if (web is not null) await web.DisposeAsync();
        await store.DisposeAsync();
        Directory.Delete(folder, recursive: true);
    }
}

/// <summary>Gives all test classes of the collection the same served sites.</summary>
[CollectionDefinition(ServedSites.Collection)]
public sealed class ServedSitesDefinition : ICollectionFixture<ServedSites>;
