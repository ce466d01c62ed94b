using Microsoft.AspNetCore.Antiforgery;
using Microsoft.Extensions.Options;

namespace SiteProgress.Web.Shell;

/// <summary>
/// A browser sends the sign-in cookie by itself, also when a foreign page asks it to. So a change made with the cookie must
/// carry the anti-forgery header, which a foreign page cannot read; a change made with a token need not.
/// </summary>
internal sealed class CookieChangesNeedHeader(IAntiforgery antiforgery, IOptions<AntiforgeryOptions> options) : IEndpointFilter
{
    public async ValueTask<object?> InvokeAsync(EndpointFilterInvocationContext context, EndpointFilterDelegate next)
    {
        HttpContext http = context.HttpContext;
        bool reads = HttpMethods.IsGet(http.Request.Method) || HttpMethods.IsHead(http.Request.Method);
        bool byToken = http.User.Identity?.AuthenticationType == PersonalTokenHandler.Scheme;
        // Asked first, as the validation looks for a missing header in the form and would read a whole upload for it.
        bool carriesHeader = options.Value.HeaderName is { } header && http.Request.Headers.ContainsKey(header);
        if (!reads && !byToken && !(carriesHeader && await antiforgery.IsRequestValidAsync(http)))
        {
            Refusals.LogNotOurs(http);
            return Results.Problem(
                statusCode: StatusCodes.Status400BadRequest,
                detail: "A change made with the sign-in cookie needs the anti-forgery header; read it from /api/v1/anti-forgery.");
        }

        return await next(context);
    }
}
