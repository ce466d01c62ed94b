using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Identity;
using SiteProgress.Storage.Accounts;

namespace SiteProgress.Web.SignIn;

/// <summary>Ends the session of this browser. Only by POST with the form's value, so that no picture or link can do it.</summary>
internal static class SignOut
{
    public static void Map(WebApplication app)
        => app.MapPost("/sign-out", async (HttpContext http, IAntiforgery antiforgery, SignInManager<Account> session) =>
        {
            if (!await antiforgery.IsRequestValidAsync(http)) return Results.BadRequest();
            await session.SignOutAsync();
            return Results.LocalRedirect("/sign-in");
        }).ExcludeFromDescription();
}
