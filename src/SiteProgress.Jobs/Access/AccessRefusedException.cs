namespace SiteProgress.Jobs.Access;

/// <summary>A role asked for something it may not do.</summary>
public sealed class AccessRefusedException(Role role, Right right)
    : Exception($"The role {role} does not hold the right {right}.")
{
    /// <summary>The role that asked.</summary>
    public Role Role { get; } = role;

    /// <summary>The right it lacks.</summary>
    public Right Right { get; } = right;
}
