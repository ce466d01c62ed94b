namespace SiteProgress.Jobs.Access;

/// <summary>Somebody asked for something they may not do: their role lacks the right, or they would decide their own proposal.</summary>
/// <param name="role">The role that asked.</param>
/// <param name="right">The right it lacks, or may not use here.</param>
/// <param name="because">The sentence a person reads, where the role alone does not explain it.</param>
public sealed class AccessRefusedException(Role role, Right right, string? because = null)
    : Exception(because ?? $"The role {role} does not hold the right {right}.")
{
    /// <summary>The role that asked.</summary>
    public Role Role { get; } = role;

    /// <summary>The right it lacks, or may not use here.</summary>
    public Right Right { get; } = right;

    /// <summary>The sentence a person reads; null where the role explains it.</summary>
    public string? Because { get; } = because;
}
