namespace SiteProgress.Browser.Tests.MainJob;

/// <summary>Who sits at the browser: the accounts that come with the demonstration, one for each role.</summary>
/// <param name="Email">What they sign in with.</param>
/// <param name="Role">Their role, as the command line says it.</param>
public sealed record Person(string Email, string Role)
{
    public static readonly Person Manager = new("manager@sandlark.invalid", "ProjectManager");
    public static readonly Person Surveyor = new("surveyor@sandlark.invalid", "Surveyor");
    public static readonly Person OwnersRepresentative = new("owner@sandlark.invalid", "OwnersRepresentative");
    public static readonly Person Administrator = new("admin@sandlark.invalid", "Administrator");

    public static readonly Person[] OfEachRole = [Manager, Surveyor, OwnersRepresentative, Administrator];
}
