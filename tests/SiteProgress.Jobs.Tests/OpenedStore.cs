using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Exchange;
using SiteProgress.Exchange.ControlPoints;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Accounts;
using SiteProgress.Jobs.Recording;
using SiteProgress.Jobs.RecordsIn;
using SiteProgress.Jobs.Sites;
using SiteProgress.Storage;

namespace SiteProgress.Jobs.Tests;

/// <summary>The product's services over a test's store, as server and commands put them together.</summary>
internal sealed class OpenedStore : IAsyncDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("siteprogress-test-").FullName;
    private readonly ServiceProvider services;

    public OpenedStore(string connectionString, TimeProvider? time = null)
    {
        ServiceCollection collection = new();
        collection.AddLogging();
        if (time is not null) collection.AddSingleton(time);
        collection.AddStore(connectionString).AddRecording(folder).AddSites()
            .AddRecordsIn(new IntakeLimits()).AddJobs().AddAccounts();
        services = collection.BuildServiceProvider();
    }

    public IServiceScope Work() => services.CreateScope();

    public T Get<T>()
        where T : notnull
        => services.GetRequiredService<T>();

    /// <summary>Opens the invented demonstration site under another code.</summary>
    public async Task OpenSiteAsync(string code)
    {
        string seed = Path.Combine(Checkout(), "seed-data");
        string text = await File.ReadAllTextAsync(Path.Combine(seed, "site.json"));
        SiteSettings settings = JsonSerializer.Deserialize<SiteSettings>(text, RecordJson.Options)! with { Code = code };
        await using FileStream points = File.OpenRead(Path.Combine(seed, "control-points.csv"));
        var read = ControlPointReader.Read(points, ReadingChoices.For(settings, Instant.FromUtc(2026, 6, 1, 0, 0)));
        OpenSiteResult opened = await Get<OpenSite>().RunAsync(
            JsonSerializer.Serialize(settings, RecordJson.Options), null, [.. read.Rows.Select(row => row.Value)], CancellationToken.None);
        if (opened.Refusal is { } refusal) throw new InvalidOperationException(refusal);
    }

    /// <summary>Makes an account, and gives it a role on a site where one is named.</summary>
    public async Task<Guid> PersonAsync(string email, Role? role = null, string site = "")
    {
        using IServiceScope work = Work();
        AccountAnswer made = await work.ServiceProvider.GetRequiredService<CreateAccount>().RunAsync("Someone Invented", email, null);
        Guid account = made.Account ?? throw new InvalidOperationException(made.Problem);
        if (role is { } granted) await Get<GrantRole>().RunAsOperatorAsync(site, account, granted, CancellationToken.None);
        return account;
    }

    public async ValueTask DisposeAsync()
    {
        await services.DisposeAsync();
        Directory.Delete(folder, recursive: true);
    }

    private static string Checkout()
    {
        for (DirectoryInfo? at = new(AppContext.BaseDirectory); at is not null; at = at.Parent)
        {
            if (File.Exists(Path.Combine(at.FullName, "SiteProgress.sln"))) return at.FullName;
        }

        throw new InvalidOperationException("The tests do not lie in a checkout.");
    }
}
