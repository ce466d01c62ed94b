using SiteProgress.Jobs.Operation;

namespace SiteProgress.Web.Shell;

/// <summary>The way a request takes, from the outside in.</summary>
internal static class ShellPipeline
{
    /// <summary>Builds it.</summary>
    /// <returns>The group <c>/api/v1</c>, for the addresses programs read.</returns>
    public static RouteGroupBuilder UseShell(this WebApplication app, Exposure exposure)
    {
        if (exposure.Proxies.Count > 0) app.UseForwardedHeaders();
        if (!exposure.LoopbackOnly) app.UseHsts();
        app.UseMiddleware<SecurityHeaders>();
        app.UseWhen(http => ShellServices.IsForPrograms(http.Request), programs =>
        {
            programs.UseExceptionHandler();
            programs.UseStatusCodePages();
        });
        app.UseWhen(http => !ShellServices.IsForPrograms(http.Request), pages =>
        {
            pages.UseExceptionHandler("/error", createScopeForErrors: true);
            pages.UseStatusCodePagesWithReExecute("/not-found", createScopeForStatusCodePages: true);
        });
        app.UseRouting();
        app.UseRateLimiter();
        app.UseAuthentication();
        app.UseAuthorization();
        app.UseAntiforgery();

        app.MapStaticAssets().AllowAnonymous();
        MapHealth(app);
        app.MapOpenApi("/openapi/{documentName}.json").AllowAnonymous();
        SignIn.SignOut.Map(app);
        FindPile.Map(app);
        app.MapRazorComponents<App>().AddInteractiveServerRenderMode(options =>
        {
            // SecurityHeaders says who may frame a page; the framework need not say it a second time.
            options.ContentSecurityFrameAncestorsPolicy = null;
        });
        return Api.Map(app);
    }

    private static void MapHealth(WebApplication app)
    {
        app.MapGet("/health/live", () => Results.Text("live")).AllowAnonymous().ExcludeFromDescription();
        app.MapGet("/health/ready", async (CheckReadiness check, CancellationToken cancellation) =>
            await check.RunAsync(cancellation) is { } reason
                ? Results.Text(reason, statusCode: StatusCodes.Status503ServiceUnavailable)
                : Results.Text("ready")).AllowAnonymous().ExcludeFromDescription();
    }
}
