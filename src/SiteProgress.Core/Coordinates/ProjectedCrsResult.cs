using System.Diagnostics.CodeAnalysis;

namespace SiteProgress.Core.Coordinates;

/// <summary>A projected CRS, or the reason why it is refused.</summary>
public sealed record ProjectedCrsResult
{
    /// <summary>The system; null when refused.</summary>
    public ProjectedCrs? Crs { get; private init; }

    /// <summary>Why it is refused, in words for a surveyor; null when it is made.</summary>
    public string? Refusal { get; private init; }

    /// <summary>Whether the system can be used.</summary>
    [MemberNotNullWhen(true, nameof(Crs))]
    [MemberNotNullWhen(false, nameof(Refusal))]
    public bool IsMade => Crs is not null;

    internal static ProjectedCrsResult Made(ProjectedCrs crs) => new() { Crs = crs };

    internal static ProjectedCrsResult Refused(string reason) => new() { Refusal = reason };
}
