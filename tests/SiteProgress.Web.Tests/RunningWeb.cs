using System.Net;
using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Exchange;
using SiteProgress.Exchange.ControlPoints;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Accounts;
using SiteProgress.Jobs.Recording;
using SiteProgress.Jobs.Sites;
using SiteProgress.Storage;
using SiteProgress.TestSupport;
using SiteProgress.Web.Commands;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Tests;

/// <summary>
/// The server itself, in this process, on a free port of this machine, over a store of the test's own. It is put together
/// by the very methods the command <c>serve</c> uses.
/// </summary>
public sealed partial class RunningWeb : IAsyncDisposable
{
    public const string Password = "four words side by side";

    private readonly string folder;
    private readonly string ownerConnection;
    private readonly WebApplication app;

    private RunningWeb(WebApplication app, string folder, string ownerConnection)
    {
        this.app = app;
        this.folder = folder;
        this.ownerConnection = ownerConnection;
    }

    public Uri Address => new(app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.Single());

    public IServiceProvider Services => app.Services;

    public static async Task<RunningWeb> StartAsync(TestDatabase database, params string[] settings)
    {
        string folder = Directory.CreateTempSubdirectory("siteprogress-web-").FullName;
        WebApplicationBuilder builder = ServerBuilder.Make(
            ["--urls=http://127.0.0.1:0", "--applicationName=SiteProgress.Web", "--environment=Development",
             "--Logging:LogLevel:Default=Warning", $"--SiteProgress:DataFolder={folder}", .. settings]);
        Exposure exposure = Exposure.Read(builder.Configuration);
        builder.AddShell(exposure, database.WebConnectionString);
        WebApplication app = builder.Build();
        RouteGroupBuilder api = app.UseShell(exposure);
        api.MapPost("/sites/{site}/only-in-tests", (HttpContext http, string site) =>
            Api.AskAsync(http, site, (permit, _) =>
            {
                permit.Demand(Right.BringIn);
                return Task.FromResult(permit.Role.ToString());
            }));
        api.MapGet("/only-in-tests/failure", string () => throw new InvalidOperationException("a secret of the server"));
        await app.StartAsync();
        return new RunningWeb(app, folder, database.OwnerConnectionString);
    }

    /// <summary>A browser of its own: it keeps cookies and follows nothing by itself.</summary>
    public HttpClient Browser() => new(new HttpClientHandler { CookieContainer = new CookieContainer(), AllowAutoRedirect = false }) { BaseAddress = Address };

    /// <summary>Makes an account with the password of all tests.</summary>
    public async Task<Guid> PersonAsync(string email)
    {
        await using AsyncServiceScope work = Services.CreateAsyncScope();
        AccountAnswer made = await work.ServiceProvider.GetRequiredService<CreateAccount>().RunAsync("Someone Invented", email, Password);
        return made.Account ?? throw new InvalidOperationException(made.Problem);
    }

    /// <summary>Opens the invented demonstration site under a code, as the operator's command does.</summary>
    public async Task OpenSiteAsync(string code)
    {
        string seed = Path.Combine(Checkout.Folder, "seed-data");
        string text = await File.ReadAllTextAsync(Path.Combine(seed, "site.json"));
        SiteSettings settings = JsonSerializer.Deserialize<SiteSettings>(text, RecordJson.Options)! with { Code = code };
        await using FileStream points = File.OpenRead(Path.Combine(seed, "control-points.csv"));
        TableReading<Core.Coordinates.ControlPoint> read =
            ControlPointReader.Read(points, ReadingChoices.For(settings, Instant.FromUtc(2026, 6, 1, 0, 0)));
        await using ServiceProvider owner = Owner();
        OpenSiteResult opened = await owner.GetRequiredService<OpenSite>().RunAsync(
            JsonSerializer.Serialize(settings, RecordJson.Options), null, [.. read.Rows.Select(row => row.Value)], CancellationToken.None);
        if (opened.Refusal is { } refusal) throw new InvalidOperationException(refusal);
    }

    public Task GrantAsync(string code, Guid account, Role role)
        => Services.GetRequiredService<GrantRole>().RunAsOperatorAsync(code, account, role, CancellationToken.None);

    /// <summary>Takes every role of a person on a site, by the hand of another administrator.</summary>
    public async Task WithdrawAsync(string code, Guid account)
    {
        Guid administrator = await PersonAsync($"{Guid.NewGuid():N}@example.org");
        await GrantAsync(code, administrator, Role.Administrator);
        Permit permit = (await Services.GetRequiredService<Gate>().EnterAsync(administrator, code, CancellationToken.None))!;
        await Services.GetRequiredService<GrantRole>().WithdrawAsync(permit, account, CancellationToken.None);
    }

    /// <summary>Sends a form of a page, with its hidden fields, as a browser does.</summary>
    public static Task<HttpResponseMessage> SendFormAsync(HttpClient browser, string page, string handler, params (string Field, string Value)[] typed)
        => SendFormAsync(browser, page, page, handler, typed);

    /// <summary>Sends a form of a page to the address the form names.</summary>
    public static async Task<HttpResponseMessage> SendFormAsync(HttpClient browser, string page, string to, string handler, params (string Field, string Value)[] typed)
    {
        string html = await browser.GetStringAsync(new Uri(page, UriKind.Relative));
        string token = FormToken().Match(html).Groups[1].Value;
        IEnumerable<KeyValuePair<string, string>> fields =
        [
            KeyValuePair.Create("_handler", handler), KeyValuePair.Create("__RequestVerificationToken", token),
            .. typed.Select(one => KeyValuePair.Create(one.Field, one.Value)),
        ];
        using FormUrlEncodedContent form = new(fields);
        return await browser.PostAsync(new Uri(to, UriKind.Relative), form);
    }

    public static Task<HttpResponseMessage> SignInAsync(HttpClient browser, string email, string password = Password)
        => SendFormAsync(browser, "/sign-in", "sign-in", ("Typed.Email", email), ("Typed.Password", password));

    public async ValueTask DisposeAsync()
    {
        await app.StopAsync();
        await app.DisposeAsync();
        Directory.Delete(folder, recursive: true);
    }

    private ServiceProvider Owner()
    {
        ServiceCollection services = new();
        services.AddLogging();
        services.AddProduct(new ConfigurationBuilder().AddInMemoryCollection([KeyValuePair.Create("SiteProgress:DataFolder", (string?)folder)]).Build(), ownerConnection);
        return services.BuildServiceProvider();
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"([^\"]+)\"")]
    private static partial Regex FormToken();
}
