using Microsoft.AspNetCore.Diagnostics;
using SiteProgress.Jobs.Operation;

namespace SiteProgress.Web.Shell;

/// <summary>
/// Answers a request that failed because the store is away: with status 503 and a page, or problem details, that say so. The
/// page is written here whole, since the frame of every other page asks the store who is signed in.
/// </summary>
internal sealed class StoreAwayHandler : IExceptionHandler
{
    private const string Page = """
        <!DOCTYPE html>
        <html lang="en">
        <head>
          <meta charset="utf-8" />
          <meta name="viewport" content="width=device-width, initial-scale=1" />
          <title>The store does not answer</title>
          <link rel="stylesheet" href="/app.css" />
        </head>
        <body>
          <header class="top"><a class="product" href="/">SiteProgress</a></header>
          <main id="content" class="bare">
            <h1>The store does not answer</h1>
            <p role="alert">The database of this server is away for now. Nothing was recorded by halves: what was answered as recorded is
              recorded, all else is not. Load this page again in a moment; if it stays away, tell the operator of this server.</p>
          </main>
        </body>
        </html>
        """;

    /// <inheritdoc />
    public async ValueTask<bool> TryHandleAsync(HttpContext httpContext, Exception exception, CancellationToken cancellationToken)
    {
        if (StoreFailure.Of(exception) is not { } failure || StoreFailure.IsOddText(failure) || !StoreFailure.IsAway(failure)) return false;
        if (ShellServices.IsForPrograms(httpContext.Request)) await Api.Failed(httpContext, failure).ExecuteAsync(httpContext);
        else await WritePageAsync(httpContext, cancellationToken);
        return true;
    }

    private static async Task WritePageAsync(HttpContext http, CancellationToken cancellation)
    {
        http.Response.StatusCode = StatusCodes.Status503ServiceUnavailable;
        http.Response.ContentType = "text/html; charset=utf-8";
        http.Response.Headers.RetryAfter = Api.RetryAfterSeconds;
        await http.Response.WriteAsync(Page, cancellation);
    }
}
