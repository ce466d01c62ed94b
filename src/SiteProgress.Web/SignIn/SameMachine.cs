using System.Net;

namespace SiteProgress.Web.SignIn;

/// <summary>Whether a request comes from the machine the server runs on.</summary>
internal static class SameMachine
{
    /// <summary>
    /// True for a loopback connection that nobody handed on. A request with a forwarding header came through something
    /// else, so it does not count even when that something stands on this machine.
    /// </summary>
    public static bool Asks(HttpContext http)
        => http.Connection.RemoteIpAddress is { } from && IPAddress.IsLoopback(from)
            && !http.Request.Headers.Keys.Any(name =>
                name.StartsWith("X-Forwarded-", StringComparison.OrdinalIgnoreCase)
                || name.StartsWith("X-Original-", StringComparison.OrdinalIgnoreCase)
                || name.Equals("Forwarded", StringComparison.OrdinalIgnoreCase));
}
