using System.Security.Claims;
using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Authentication;
using Microsoft.Extensions.Options;
using SiteProgress.Jobs.Accounts;

namespace SiteProgress.Web.Shell;

/// <summary>Lets a program in by its person's token: <c>Authorization: Bearer sp_...</c>, on the HTTP interface only.</summary>
internal sealed class PersonalTokenHandler(
    IOptionsMonitor<AuthenticationSchemeOptions> options, ILoggerFactory loggers, UrlEncoder encoder, PersonalTokens tokens)
    : AuthenticationHandler<AuthenticationSchemeOptions>(options, loggers, encoder)
{
    private const string Word = "Bearer ";

    /// <summary>Name of the scheme, and of the identity it makes.</summary>
    public new const string Scheme = "Bearer";

    /// <summary>True when the request is for programs and brings a token.</summary>
    public static bool Speaks(HttpRequest request)
        => request.Path.StartsWithSegments("/api")
            && request.Headers.Authorization.ToString().StartsWith(Word, StringComparison.OrdinalIgnoreCase);

    /// <inheritdoc />
    protected override async Task<AuthenticateResult> HandleAuthenticateAsync()
    {
        if (!Speaks(Request)) return AuthenticateResult.NoResult();
        string token = Request.Headers.Authorization.ToString()[Word.Length..].Trim();
        if (await tokens.WhoseAsync(token, Context.RequestAborted) is not { } account)
            return AuthenticateResult.Fail("The token is unknown or revoked.");
        ClaimsIdentity identity = new([new Claim(ClaimTypes.NameIdentifier, account.ToString())], Scheme);
        return AuthenticateResult.Success(new AuthenticationTicket(new ClaimsPrincipal(identity), Scheme));
    }
}
