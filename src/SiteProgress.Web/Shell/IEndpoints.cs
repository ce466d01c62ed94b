namespace SiteProgress.Web.Shell;

/// <summary>
/// What a page's folder answers beside the page itself: its part of the HTTP interface and its downloads. A class that is
/// added is found by itself; there is no list to keep.
/// </summary>
internal interface IEndpoints
{
    /// <summary>Adds the addresses.</summary>
    /// <param name="app">For addresses beside the pages, such as a download.</param>
    /// <param name="api">The group <c>/api/v1</c>.</param>
    void Map(IEndpointRouteBuilder app, RouteGroupBuilder api);
}
