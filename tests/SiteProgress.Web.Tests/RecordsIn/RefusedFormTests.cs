using System.Collections.Concurrent;
using System.Net;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Shouldly;
using SiteProgress.Jobs.Access;
using Xunit;

namespace SiteProgress.Web.Tests.RecordsIn;

/// <summary>What the doors for forms and files refuse is kept in the log, with who asked and for what.</summary>
public sealed class RefusedFormTests(WebDatabase database) : IClassFixture<WebDatabase>, IAsyncLifetime
{
    private readonly string site = "site-" + Guid.NewGuid().ToString("N")[..12];
    private readonly KeptLog log = new();
    private RunningWeb web = null!;

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        web = await RunningWeb.StartAsync(database, "--SiteProgress:SignInAttemptsPerMinute=1000");
        await web.OpenSiteAsync(site);
        web.Services.GetRequiredService<ILoggerFactory>().AddProvider(log);
    }

    public async ValueTask DisposeAsync()
    {
        await web.DisposeAsync();
        log.Dispose();
    }

    [Theory]
    [InlineData("/sites/{0}/records-in/send")]
    [InlineData("/sites/{0}/records-in/6f9619ff-8b86-d011-b42d-00c04fc964ff/record")]
    [InlineData("/sites/{0}/records-in/1/withdraw")]
    public async Task A_forged_form_is_refused_and_the_log_says_whose_sign_in_it_used(string address)
    {
        (HttpClient browser, Guid person) = await PersonAsync(Role.ProjectManager);
        string path = string.Format(System.Globalization.CultureInfo.InvariantCulture, address, site);
        using MultipartFormDataContent forged = new() { { new StringContent("A-1"), "file", "plan.csv" } };

        using (browser) (await browser.PostAsync(new Uri(path, UriKind.Relative), forged, Cancellation)).StatusCode.ShouldBe(HttpStatusCode.BadRequest);

        log.Lines.ShouldContain($"Refused: account {person}, at POST {path}: it carries no valid anti-forgery value.");
    }

    [Fact]
    public async Task A_form_of_somebody_whose_role_may_not_is_refused_and_the_log_says_who_and_why()
    {
        (HttpClient browser, Guid person) = await PersonAsync(Role.OwnersRepresentative);
        string path = $"/sites/{site}/records-in/1/withdraw";

        using (browser) (await RunningWeb.SendFormAsync(browser, "/account", path, "", ("reason", "mine"))).StatusCode.ShouldBe(HttpStatusCode.Forbidden);

        log.Lines.ShouldContain(line => line.StartsWith($"Refused: account {person}, OwnersRepresentative on {site}, at POST {path}: ", StringComparison.Ordinal));
    }

    private async Task<(HttpClient Browser, Guid Account)> PersonAsync(Role role)
    {
        string email = $"{Guid.NewGuid():N}@example.org";
        Guid account = await web.PersonAsync(email);
        await web.GrantAsync(site, account, role);
        HttpClient browser = web.Browser();
        await RunningWeb.SignInAsync(browser, email);
        return (browser, account);
    }

    /// <summary>Keeps what the server logs.</summary>
    private sealed class KeptLog : ILoggerProvider, ILogger
    {
        public ConcurrentQueue<string> Lines { get; } = [];

        public ILogger CreateLogger(string categoryName) => this;

        public IDisposable? BeginScope<TState>(TState state)
            where TState : notnull => null;

        public bool IsEnabled(LogLevel logLevel) => true;

        public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter) => Lines.Enqueue(formatter(state, exception));

        public void Dispose()
        {
        }
    }
}
