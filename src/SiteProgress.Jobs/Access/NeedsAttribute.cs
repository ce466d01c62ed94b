namespace SiteProgress.Jobs.Access;

/// <summary>
/// The right a job method demands. The method itself demands it from its <see cref="Permit"/>; a test runs every such method
/// with every role and compares.
/// </summary>
/// <param name="right">The right.</param>
[AttributeUsage(AttributeTargets.Method)]
public sealed class NeedsAttribute(Right right) : Attribute
{
    /// <summary>The right.</summary>
    public Right Right { get; } = right;
}
