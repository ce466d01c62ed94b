using ArchUnitNET.Domain;
using ArchUnitNET.Loader;

namespace SiteProgress.Architecture.Tests;

/// <summary>The compiled product and the planted mistakes, with what each type uses, method bodies included.</summary>
internal static class Code
{
    /// <summary>Root namespace of the product.</summary>
    public const string Product = "SiteProgress";

    /// <summary>Root namespace of mistakes planted here, in the same folder shape.</summary>
    public const string Planted = "SiteProgress.Architecture.Tests.Planted";

    private static readonly ArchUnitNET.Domain.Architecture Loaded = new ArchLoader().LoadAssemblies(
        typeof(Core.Piles.PlannedPile).Assembly,
        typeof(Exchange.ReadingChoices).Assembly,
        typeof(Storage.SiteProgressDb).Assembly,
        typeof(Jobs.JobServices).Assembly,
        typeof(Web.Shell.SitePage).Assembly,
        typeof(Code).Assembly).Build();

    /// <summary>Types below a namespace, without what the compiler made and without planted mistakes when the product is asked for.</summary>
    public static IType[] TypesBelow(string root, string below)
        => Loaded.Types
            .Where(type => IsBelow(type.FullName, $"{root}.{below}") && (root == Planted || !IsBelow(type.FullName, Planted)))
            .ToArray();

    /// <summary>What a type uses, as full names, each once.</summary>
    public static IEnumerable<string> Uses(IType type)
        => type.Dependencies.Select(dependency => dependency.Target.FullName).Distinct();

    /// <summary>True when a full name lies below a namespace.</summary>
    public static bool IsBelow(string fullName, string space) => fullName.StartsWith(space + ".", StringComparison.Ordinal);

    /// <summary>The folder below a namespace that a full name lies in; empty for a type directly below it.</summary>
    public static string Folder(string fullName, string space)
    {
        if (!IsBelow(fullName, space)) return "";
        string rest = fullName[(space.Length + 1)..];
        int dot = rest.IndexOf('.', StringComparison.Ordinal);
        return dot < 0 ? "" : rest[..dot];
    }
}
