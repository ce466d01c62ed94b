using Microsoft.AspNetCore.Antiforgery;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Operation;

namespace SiteProgress.Web.Shell;

/// <summary>The HTTP interface's common ground: who may, and how a refusal is answered.</summary>
public static class Api
{
    /// <summary>When to ask again while the store is away.</summary>
    internal const string RetryAfterSeconds = "10";

    /// <summary>Makes the group <c>/api/v1</c>, the address that hands out the anti-forgery value, and all that pages answer beside themselves.</summary>
    internal static RouteGroupBuilder Map(WebApplication app)
    {
        RouteGroupBuilder api = app.MapGroup("/api/v1").AddEndpointFilter<CookieChangesNeedHeader>();
        api.MapGet("/anti-forgery", (HttpContext http, IAntiforgery antiforgery) =>
        {
            AntiforgeryTokenSet tokens = antiforgery.GetAndStoreTokens(http);
            return Results.Ok(new AntiforgeryValue(tokens.HeaderName!, tokens.RequestToken!));
        }).WithName("AntiForgery").WithSummary("The header a change needs when it is made with the sign-in cookie.");
        foreach (Type type in typeof(Api).Assembly.GetTypes().Where(type => type is { IsClass: true, IsAbstract: false } && typeof(IEndpoints).IsAssignableFrom(type)))
            ((IEndpoints)Activator.CreateInstance(type)!).Map(app, api);
        return api;
    }

    /// <summary>The header that a change needs when it is made with the sign-in cookie.</summary>
    /// <param name="Header">Name of the header.</param>
    /// <param name="Value">Its value.</param>
    public sealed record AntiforgeryValue(string Header, string Value);

    /// <summary>
    /// Enters the gate for the person of the request and runs a job. A site the person has no role on answers 404 like one
    /// that does not exist; a right the role lacks answers 403 with a sentence.
    /// </summary>
    /// <param name="http">The request.</param>
    /// <param name="site">Code of the site in the address.</param>
    /// <param name="job">The job; its answer is the answer, as JSON unless it is an <see cref="IResult"/>.</param>
    public static async Task<IResult> AskAsync<T>(HttpContext http, string site, Func<Permit, CancellationToken, Task<T>> job)
    {
        Gate gate = http.RequestServices.GetRequiredService<Gate>();
        if (http.User.AccountId() is not { } account) return Results.Problem(statusCode: StatusCodes.Status401Unauthorized);
        try
        {
            if (await gate.EnterAsync(account, site, http.RequestAborted) is not { } permit) return NotFound();
            return await AskAsync(http, permit, site, job);
        }
        catch (Exception failure) when (CanBeTold(failure))
        {
            return Failed(http, StoreFailure.Of(failure)!);
        }
    }

    private static async Task<IResult> AskAsync<T>(HttpContext http, Permit permit, string site, Func<Permit, CancellationToken, Task<T>> job)
    {
        try
        {
            T answer = await job(permit, http.RequestAborted);
            return answer switch
            {
                null => NotFound(),
                IResult result => result,
                _ => Results.Ok(answer),
            };
        }
        catch (AccessRefusedException refused)
        {
            Refusals.Log(http.RequestServices.GetRequiredService<ILoggerFactory>(), permit.Account, site, $"{http.Request.Method} {http.Request.Path}", refused);
            return Results.Problem(statusCode: StatusCodes.Status403Forbidden, detail: RoleWords.Refusal(refused));
        }
        catch (AccessWithdrawnException withdrawn)
        {
            return Results.Problem(statusCode: StatusCodes.Status403Forbidden, detail: withdrawn.Message);
        }
    }

    /// <summary>What the store could not do: 400 where a text cannot be, 503 where the same may succeed later.</summary>
    internal static IResult Failed(HttpContext http, System.Data.Common.DbException failure)
    {
        if (StoreFailure.IsOddText(failure)) return Results.Problem(statusCode: StatusCodes.Status400BadRequest, detail: StoreFailure.Sentence(failure));
        http.RequestServices.GetRequiredService<ILoggerFactory>().CreateLogger(typeof(Api)).LogError(
            "The store failed a request ({Kind}, {State}).", failure.GetType().Name, failure.SqlState);
        http.Response.Headers.RetryAfter = RetryAfterSeconds;
        return Results.Problem(statusCode: StatusCodes.Status503ServiceUnavailable, detail: StoreFailure.Sentence(failure));
    }

    private static bool CanBeTold(Exception failure)
        => StoreFailure.Of(failure) is { } told && (StoreFailure.IsOddText(told) || StoreFailure.IsAway(told));

    private static IResult NotFound() => Results.Problem(statusCode: StatusCodes.Status404NotFound, detail: "There is nothing at this address for you.");
}
