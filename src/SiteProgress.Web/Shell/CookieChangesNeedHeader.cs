using Microsoft.AspNetCore.Antiforgery;

namespace SiteProgress.Web.Shell;

/// <summary>
/// A browser sends the sign-in cookie by itself, also when a foreign page asks it to. So a change made with the cookie must
/// carry the anti-forgery header, which a foreign page cannot read; a change made with a token need not.
/// </summary>
internal sealed class CookieChangesNeedHeader(IAntiforgery antiforgery) : IEndpointFilter
{
    public async ValueTask<object?> InvokeAsync(EndpointFilterInvocationContext context, EndpointFilterDelegate next)
    {
        HttpContext http = context.HttpContext;
        bool reads = HttpMethods.IsGet(http.Request.Method) || HttpMethods.IsHead(http.Request.Method);
        bool byToken = http.User.Identity?.AuthenticationType == PersonalTokenHandler.Scheme;
        if (!reads && !byToken && !await antiforgery.IsRequestValidAsync(http))
        {
            return Results.Problem(
                statusCode: StatusCodes.Status400BadRequest,
                detail: "A change made with the sign-in cookie needs the anti-forgery header; read it from /api/v1/anti-forgery.");
        }

        return await next(context);
    }
}
