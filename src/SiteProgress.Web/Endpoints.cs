namespace SiteProgress.Web;

/// <summary>Every address that is not a page: one line for each class that maps some.</summary>
internal static class Endpoints
{
    /// <summary>Maps them.</summary>
    /// <param name="app">For addresses of pages, such as data a map reads.</param>
    /// <param name="api">The group <c>/api/v1</c>. Its changes need the anti-forgery header; enter sites by <see cref="Shell.Api.AskAsync{T}"/>.</param>
    public static void Map(WebApplication app, RouteGroupBuilder api)
    {
    }
}
