using System.Security.Cryptography;
using Microsoft.Net.Http.Headers;

namespace SiteProgress.Web.Shell;

/// <summary>
/// Tells the browser what a page may do. Scripts come from this server only; the one inline script, the framework's import
/// map, carries a value that is new for each answer. Style sheets too come from this server only; single attributes are
/// let through, because the framework writes the heights of a long list's unseen part as one, and no text a person
/// typed ever becomes an attribute.
/// </summary>
internal sealed class SecurityHeaders(RequestDelegate next, IConfiguration configuration)
{
    private static readonly object NonceKey = new();
    private readonly string imageHosts = ImageHosts(configuration["SiteProgress:TileSource"]);

    /// <summary>The value the import map of this answer carries.</summary>
    public static string Nonce(HttpContext http)
    {
        if (http.Items[NonceKey] is string made) return made;
        string nonce = Convert.ToBase64String(RandomNumberGenerator.GetBytes(16));
        http.Items[NonceKey] = nonce;
        return nonce;
    }

    public Task InvokeAsync(HttpContext http)
    {
        IHeaderDictionary headers = http.Response.Headers;
        headers.ContentSecurityPolicy =
            $"default-src 'self'; script-src 'self' 'nonce-{Nonce(http)}'; style-src 'self'; style-src-attr 'unsafe-inline'; "
            + $"img-src 'self' data: blob:{imageHosts}; object-src 'none'; base-uri 'self'; form-action 'self'; frame-ancestors 'none'";
        headers.XContentTypeOptions = "nosniff";
        headers.XFrameOptions = "DENY";
        headers["Referrer-Policy"] = "same-origin";
        headers["Permissions-Policy"] = "camera=(), geolocation=(self), microphone=(), payment=(), usb=()";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        http.Response.OnStarting(static state =>
        {
            HttpResponse response = (HttpResponse)state;
            // Pages hold what only the person may see; a shared machine must not keep them.
            if (response.ContentType?.StartsWith("text/html", StringComparison.Ordinal) == true)
                response.Headers[HeaderNames.CacheControl] = "no-store";
            else if (response.Headers.ETag.Count > 0 && response.HttpContext.Request.Path.StartsWithSegments("/api"))
                KeepAndAsk(response.Headers);
            return Task.CompletedTask;
        }, http.Response);
        return next(http);
    }

    /// <summary>
    /// An answer with a tag is kept by this person's browser alone, and asked about each time. A sign-in cookie that is renewed
    /// with the answer forbids keeping it, so this is said last.
    /// </summary>
    private static void KeepAndAsk(IHeaderDictionary headers)
    {
        headers[HeaderNames.CacheControl] = "private, no-cache";
        headers.Remove(HeaderNames.Pragma);
        headers.Remove(HeaderNames.Expires);
    }

    /// <summary>The host of the operator's map tiles, if one is configured; pictures may come from there and from nowhere else.</summary>
    private static string ImageHosts(string? tileSource)
        => Uri.TryCreate(tileSource?.Replace("{s}.", "", StringComparison.Ordinal), UriKind.Absolute, out Uri? address)
            ? " " + address.GetLeftPart(UriPartial.Authority)
            : "";
}
