namespace SiteProgress.Web.SignIn;

/// <summary>Addresses a person may be sent on to.</summary>
internal static class LocalAddress
{
    /// <summary>The address when it is one of this server, else the other: a link must not lead elsewhere through the sign-in page.</summary>
    public static string Or(string? address, string otherwise)
        => address is ['/', ..] && address is not ['/', '/' or '\\', ..] && !address.Any(char.IsControl) ? address : otherwise;
}
