namespace SiteProgress.Jobs.Access;

/// <summary>Excuses a method, or all methods of a class, from taking a <see cref="Permit"/>, and says why.</summary>
/// <param name="reason">Why nobody's role on a site is asked for.</param>
[AttributeUsage(AttributeTargets.Method | AttributeTargets.Class)]
public sealed class WithoutPermitAttribute(string reason) : Attribute
{
    /// <summary>Why nobody's role on a site is asked for.</summary>
    public string Reason { get; } = reason;
}
