using System.Net;
using System.Text;
using System.Text.RegularExpressions;
using Npgsql;
using Shouldly;
using SiteProgress.TestSupport;
using Xunit;

namespace SiteProgress.Browser.Tests.RecordsIn;

/// <summary>
/// The published application and a server of its own, both of which may be killed, with one site and a surveyor who is
/// signed in. After a kill it is put up again on the same data.
/// </summary>
public sealed partial class KillableSite : IAsyncLifetime
{
    public const string Site = "sandlark";
    private const string Email = "surveyor@example.org";
    private const string Password = "seven-terns-on-the-pier";

    private readonly string folder = Directory.CreateTempSubdirectory("siteprogress-killed-").FullName;
    private OwnCluster cluster = null!;
    private PublishedWeb web = null!;
    private HttpClient? browser;

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private MigrationTarget Target => new(cluster.OwnerConnectionString, cluster.WebConnectionString);

    private Dictionary<string, string> Settings => new() { ["SiteProgress__DataFolder"] = folder };

    public async ValueTask InitializeAsync()
    {
        cluster = await OwnCluster.StartAsync();
        await PublishedWeb.MigrateAsync(Target);
        var seed = Path.Combine(Checkout.Folder, "seed-data");
        await CommandAsync("open-site", Path.Combine(seed, "site.json"), Path.Combine(seed, "control-points.csv"));
        var link = PasswordLink().Match(await CommandAsync("create-account", "Someone Invented", Email)).Value;
        await CommandAsync("grant-role", Site, Email, "Surveyor");
        web = await PublishedWeb.StartAsync(Target, Settings);
        browser = NewBrowser();
        (await FormAsync(link, link, ("_handler", "set-password"), ("Typed.Password", Password), ("Typed.Again", Password))).StatusCode.ShouldBe(HttpStatusCode.OK);
        await SignInAsync();
    }

    /// <summary>Sends a schedule of so many piles, whose numbers begin alike.</summary>
    /// <returns>The address of its preview.</returns>
    public async Task<string> SendAsync(string beginning, int piles)
    {
        var text = new StringBuilder("Pile No,Zone,X [m],Y [m]\n");
        for (var pile = 0; pile < piles; pile++)
            text.Append(FormattableString.Invariant($"{beginning}-{pile:0000},A,{1000 + (2.1 * pile):0.000},2000.000\n"));
        using var form = new MultipartFormDataContent();
        using var token = new StringContent(await TokenAsync($"/sites/{Site}/records-in"));
        using var file = new ByteArrayContent(Encoding.UTF8.GetBytes(text.ToString()));
        form.Add(token, "__RequestVerificationToken");
        form.Add(file, "file", beginning + ".csv");
        using var sent = await browser!.PostAsync(new Uri($"/sites/{Site}/records-in/send", UriKind.Relative), form, Cancellation);
        return sent.Headers.Location.ShouldNotBeNull().ToString();
    }

    /// <summary>Records a file by the form of its preview.</summary>
    /// <returns>Where the answer leads; null when the answer never came or said that something failed.</returns>
    public async Task<string?> RecordAsync(string preview, string token)
    {
        try
        {
            using var form = new FormUrlEncodedContent([KeyValuePair.Create("__RequestVerificationToken", token)]);
            using var answer = await browser!.PostAsync(new Uri(preview + "/record", UriKind.Relative), form, Cancellation);
            return answer.Headers.Location?.ToString();
        }
        catch (HttpRequestException)
        {
            return null;
        }
    }

    /// <summary>Asks for an address as the surveyor.</summary>
    public Task<HttpResponseMessage> GetAsync(string address) => browser!.GetAsync(new Uri(address, UriKind.Relative), Cancellation);

    /// <summary>Sends the form of the sign-in page from a browser that holds nothing yet, and keeps that browser for what follows.</summary>
    public Task<HttpResponseMessage> TrySignInAsync()
    {
        browser?.Dispose();
        browser = NewBrowser();
        return FormAsync("/sign-in", "/sign-in", ("_handler", "sign-in"), ("Typed.Email", Email), ("Typed.Password", Password));
    }

    /// <summary>The anti-forgery value of a page.</summary>
    public async Task<string> TokenAsync(string page)
        => FormToken().Match(await browser!.GetStringAsync(new Uri(page, UriKind.Relative), Cancellation)).Groups[1].Value;

    /// <summary>Holds a table against writers until it is given back, from a connection of the table's owner.</summary>
    public async Task<NpgsqlConnection> HoldAsync(string table, string mode)
    {
        var text = new NpgsqlConnectionStringBuilder(cluster.OwnerConnectionString) { Pooling = false };
        var connection = new NpgsqlConnection(text.ConnectionString);
        await connection.OpenAsync(Cancellation);
        await ExecuteAsync(connection, $"begin; lock table {table} in {mode} mode");
        return connection;
    }

    /// <summary>Waits, in the store itself, until somebody waits for the table.</summary>
    public async Task UntilSomebodyWaitsForAsync(string table)
    {
        await using var connection = new NpgsqlConnection(cluster.OwnerConnectionString);
        await connection.OpenAsync(Cancellation);
        await ExecuteAsync(connection, $"""
            do $$ begin
              while not exists (select from pg_locks where relation = '{table}'::regclass and not granted) loop
                perform pg_sleep(0.02);
              end loop;
            end $$
            """);
    }

    /// <summary>How many records the site has.</summary>
    public async Task<long> RecordsAsync()
    {
        await using var connection = new NpgsqlConnection(cluster.OwnerConnectionString);
        await connection.OpenAsync(Cancellation);
        await using var command = new NpgsqlCommand("select count(*) from record.site_record", connection);
        return (long)(await command.ExecuteScalarAsync(Cancellation))!;
    }

    /// <summary>Verifies chain, outside heads and derived state by the operator's command, which fails when one does not hold.</summary>
    public Task<string> VerifyAsync() => CommandAsync("verify", Site);

    /// <summary>Ends the application at once.</summary>
    public Task KillWebAsync() => web.KillAsync();

    /// <summary>Ends all processes of the server at once.</summary>
    public Task KillServerAsync() => cluster.KillAsync();

    /// <summary>Starts the application again after it was killed.</summary>
    public async Task StartWebAgainAsync()
    {
        await web.DisposeAsync();
        web = await PublishedWeb.StartAsync(Target, Settings);
        await SignInAsync();
    }

    /// <summary>Starts the server again on the same data, and the application after it: its connection string may have changed.</summary>
    public async Task StartServerAndWebAgainAsync()
    {
        await cluster.StartAgainAsync();
        await StartWebAgainAsync();
    }

    public async ValueTask DisposeAsync()
    {
        browser?.Dispose();
        if (web is not null) await web.DisposeAsync();
        if (cluster is not null) await cluster.DisposeAsync();
        Directory.Delete(folder, recursive: true);
    }

    private async Task<string> CommandAsync(params string[] words)
    {
        var result = await PublishedWeb.RunAsync(Target, words, Settings);
        return result.Status == 0
            ? result.Output
            : throw new InvalidOperationException($"{words[0]} ended with status {result.Status}: {result.Output}{result.Problems}");
    }

    private HttpClient NewBrowser() => new(new HttpClientHandler { CookieContainer = new CookieContainer(), AllowAutoRedirect = false }) { BaseAddress = web.Address };

    private async Task SignInAsync()
        => (await TrySignInAsync()).StatusCode.ShouldBe(HttpStatusCode.Redirect);

    private async Task<HttpResponseMessage> FormAsync(string page, string to, params (string Name, string Value)[] fields)
    {
        using var form = new FormUrlEncodedContent(
            [KeyValuePair.Create("__RequestVerificationToken", await TokenAsync(page)), .. fields.Select(field => KeyValuePair.Create(field.Name, field.Value))]);
        return await browser!.PostAsync(new Uri(to, UriKind.Relative), form, Cancellation);
    }

    private static async Task ExecuteAsync(NpgsqlConnection connection, string statement)
    {
        await using var command = new NpgsqlCommand(statement, connection) { CommandTimeout = 120 };
        await command.ExecuteNonQueryAsync(Cancellation);
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"([^\"]+)\"")]
    private static partial Regex FormToken();

    [GeneratedRegex("/set-password\\?link=\\S+")]
    private static partial Regex PasswordLink();
}
