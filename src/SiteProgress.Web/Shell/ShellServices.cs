using System.Globalization;
using System.Text.Json.Serialization;
using System.Threading.RateLimiting;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.AspNetCore.HostFiltering;
using Microsoft.AspNetCore.HttpOverrides;
using Microsoft.AspNetCore.Identity;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Accounts;
using SiteProgress.Web.Commands;

namespace SiteProgress.Web.Shell;

/// <summary>What every page and every answer of the HTTP interface stands on.</summary>
internal static class ShellServices
{
    /// <summary>The scheme that chooses between cookie and personal token.</summary>
    public const string CookieOrToken = "CookieOrToken";

    public static void AddShell(this WebApplicationBuilder builder, Exposure exposure, string connectionString)
    {
        IServiceCollection services = builder.Services;
        if (builder.Environment.IsProduction()) builder.Logging.ClearProviders().AddJsonConsole(json => json.IncludeScopes = false);
        services.AddProduct(builder.Configuration, connectionString);
        AddSignIn(services, exposure);
        services.AddAntiforgery(options =>
        {
            options.Cookie.Name = "SiteProgress.Form";
            options.Cookie.SecurePolicy = Secure(exposure);
            // SecurityHeaders says for every answer that nothing may frame it.
            options.SuppressXFrameOptionsHeader = true;
        });
        AddLimits(services, builder.Configuration);
        if (exposure.Proxies.Count > 0) BelieveProxies(services, exposure);
        if (exposure.LoopbackOnly && builder.Configuration["AllowedHosts"] is null or "*")
        {
            // Another name that leads to this machine is how a foreign page would reach a loopback server.
            services.Configure<HostFilteringOptions>(options => options.AllowedHosts = ["localhost", "127.0.0.1", "[::1]"]);
        }

        // Times and words read the same in an answer as in a record's body.
        services.ConfigureHttpJsonOptions(json =>
        {
            foreach (JsonConverter converter in RecordJson.Options.Converters) json.SerializerOptions.Converters.Add(converter);
        });
        // A request that cannot be read is refused alike in every environment.
        services.Configure<RouteHandlerOptions>(routes => routes.ThrowOnBadRequest = false);
        services.AddProblemDetails();
        services.AddExceptionHandler<StoreAwayHandler>();
        services.AddOpenApi("v1");
        services.AddSingleton<SiteChanges>();
        services.AddHostedService<SiteChangeListener>();
        services.AddRazorComponents().AddInteractiveServerComponents(circuit =>
        {
            // A weak link at sea may be away for a good while; the page is kept for it.
            circuit.DisconnectedCircuitRetentionPeriod = TimeSpan.FromMinutes(20);
            circuit.DetailedErrors = builder.Environment.IsDevelopment();
        });
    }

    private static CookieSecurePolicy Secure(Exposure exposure)
        => exposure.LoopbackOnly ? CookieSecurePolicy.SameAsRequest : CookieSecurePolicy.Always;

    private static void AddSignIn(IServiceCollection services, Exposure exposure)
    {
        services.AddAccounts().AddSignInManager().AddClaimsPrincipalFactory<SignIn.PersonIdentity>();
        services.AddScoped<SignIn.SignInWithPassword>();
        services.AddAuthentication(CookieOrToken)
            .AddPolicyScheme(CookieOrToken, null, scheme => scheme.ForwardDefaultSelector = http =>
                PersonalTokenHandler.Speaks(http.Request) ? PersonalTokenHandler.Scheme : IdentityConstants.ApplicationScheme)
            .AddScheme<AuthenticationSchemeOptions, PersonalTokenHandler>(PersonalTokenHandler.Scheme, null)
            .AddIdentityCookies(cookies => cookies.ApplicationCookie!.Configure(cookie =>
            {
                cookie.Cookie.Name = "SiteProgress.SignIn";
                cookie.Cookie.HttpOnly = true;
                cookie.Cookie.SameSite = SameSiteMode.Lax;
                cookie.Cookie.SecurePolicy = Secure(exposure);
                cookie.ExpireTimeSpan = TimeSpan.FromHours(14);
                cookie.SlidingExpiration = true;
                cookie.LoginPath = "/sign-in";
                cookie.ReturnUrlParameter = "to";
                cookie.Events.OnRedirectToLogin = redirect => AnswerOrRedirect(redirect.HttpContext, StatusCodes.Status401Unauthorized, redirect.RedirectUri);
                cookie.Events.OnRedirectToAccessDenied = denied => AnswerOrRedirect(denied.HttpContext, StatusCodes.Status403Forbidden, null);
            }));
        services.Configure<SecurityStampValidatorOptions>(options => options.ValidationInterval = SessionWatch.Interval);
        services.AddAuthorizationBuilder().SetFallbackPolicy(new AuthorizationPolicyBuilder().RequireAuthenticatedUser().Build());
        services.AddCascadingAuthenticationState();
        services.AddScoped<AuthenticationStateProvider, SessionWatch>();
    }

    private static Task AnswerOrRedirect(HttpContext http, int status, string? redirect)
    {
        if (redirect is null || IsForPrograms(http.Request)) http.Response.StatusCode = status;
        else http.Response.Redirect(redirect);
        return Task.CompletedTask;
    }

    /// <summary>True for addresses that programs read, which get problem details instead of pages.</summary>
    public static bool IsForPrograms(HttpRequest request) => request.Path.StartsWithSegments("/api") || request.Path.StartsWithSegments("/_blazor");

    /// <summary>Forms that try a secret may be sent only so often from one address.</summary>
    private static void AddLimits(IServiceCollection services, IConfiguration configuration)
    {
        int attempts = configuration.GetValue("SiteProgress:SignInAttemptsPerMinute", 20);
        PathString[] guarded = ["/sign-in", "/set-password", "/first-administrator"];
        services.AddRateLimiter(limiter =>
        {
            limiter.RejectionStatusCode = StatusCodes.Status429TooManyRequests;
            limiter.OnRejected = async (rejected, cancellation) =>
            {
                rejected.HttpContext.Response.Headers.RetryAfter = "60";
                rejected.HttpContext.Response.ContentType = "text/plain; charset=utf-8";
                await rejected.HttpContext.Response.WriteAsync(
                    "Too many attempts from this address. Wait a minute, then go back and try again.", cancellation);
            };
            limiter.GlobalLimiter = PartitionedRateLimiter.Create<HttpContext, string>(http =>
                HttpMethods.IsPost(http.Request.Method) && guarded.Any(path => http.Request.Path.StartsWithSegments(path))
                    ? RateLimitPartition.GetFixedWindowLimiter(
                        http.Connection.RemoteIpAddress?.ToString() ?? "unknown",
                        _ => new FixedWindowRateLimiterOptions { PermitLimit = attempts, Window = TimeSpan.FromMinutes(1) })
                    : RateLimitPartition.GetNoLimiter(string.Empty));
        });
    }

    private static void BelieveProxies(IServiceCollection services, Exposure exposure)
        => services.Configure<ForwardedHeadersOptions>(options =>
        {
            options.ForwardedHeaders = ForwardedHeaders.XForwardedFor | ForwardedHeaders.XForwardedProto | ForwardedHeaders.XForwardedHost;
            options.KnownProxies.Clear();
            options.KnownIPNetworks.Clear();
            foreach (System.Net.IPNetwork proxy in exposure.Proxies) options.KnownIPNetworks.Add(proxy);
        });
}
