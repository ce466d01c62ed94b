using SiteProgress.Jobs.Access;

namespace SiteProgress.Web.Shell;

/// <summary>Keeps in the log what somebody was refused. Buttons are drawn for those who may, so a refusal is worth a look.</summary>
internal static class Refusals
{
    /// <summary>Writes one refusal.</summary>
    /// <param name="loggers">Where logs go.</param>
    /// <param name="account">Who asked.</param>
    /// <param name="site">Code of the site.</param>
    /// <param name="where">Page or request.</param>
    /// <param name="refused">What was refused.</param>
    public static void Log(ILoggerFactory loggers, Guid account, string site, string where, AccessRefusedException refused)
        // The path was sent by the person and may hold anything; a line of the log is one line.
        => loggers.CreateLogger("SiteProgress.Refusals").LogWarning(
            "Refused: account {Account}, {Role} on {Site}, at {Where}: {Reason}", account, refused.Role, Plain(site), Plain(where), RoleWords.Refusal(refused));

    /// <summary>Writes that a change came without the value that only a page of ours carries: forged, or from a page long read.</summary>
    /// <param name="http">The request.</param>
    public static void LogNotOurs(HttpContext http)
        => http.RequestServices.GetRequiredService<ILoggerFactory>().CreateLogger("SiteProgress.Refusals").LogWarning(
            "Refused: account {Account}, at {Where}: it carries no valid anti-forgery value.", http.User.AccountId(), Plain($"{http.Request.Method} {http.Request.Path}"));

    private static string Plain(string text) => string.Concat(text.Select(letter => char.IsControl(letter) ? ' ' : letter));
}
