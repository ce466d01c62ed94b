namespace SiteProgress.Web.Shell;

/// <summary>Refuses a request of a program whose parts cannot be read: a filter left out in silence would answer another question.</summary>
internal static class AskedParts
{
    /// <summary>A refusal that names the first part that cannot be read; null when all can.</summary>
    /// <param name="parts">Name of each part, what was sent, whether it was understood, and what was expected.</param>
    public static IResult? Refusal(params ReadOnlySpan<(string Name, string? Sent, bool IsRead, string Expected)> parts)
    {
        foreach ((string name, string? sent, bool isRead, string expected) in parts)
        {
            if (!string.IsNullOrEmpty(sent) && !isRead)
                return Results.Problem(statusCode: StatusCodes.Status400BadRequest, detail: $"{name}: '{sent}' was not understood; expected {expected}.");
        }

        return null;
    }

    /// <summary>A day of a request, for <see cref="Refusal"/>.</summary>
    public static (string Name, string? Sent, bool IsRead, string Expected) Day(string name, string? sent)
        => (name, sent, ShowDay.FromAddress(sent) is not null, "a day as year-month-day, such as 2026-05-29");
}
