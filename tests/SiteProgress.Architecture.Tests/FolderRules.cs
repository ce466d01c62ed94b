using ArchUnitNET.Domain;

namespace SiteProgress.Architecture.Tests;

/// <summary>Rules between folders, as functions of a root namespace, so that each also runs on planted mistakes.</summary>
internal static class FolderRules
{
    /// <summary>Which core folder may use which; a folder may always use itself.</summary>
    private static readonly Dictionary<string, string[]> CoreMayUse = new()
    {
        ["Coordinates"] = [],
        ["Piles"] = ["Coordinates"],
        ["Ground"] = ["Coordinates", "Piles", "Deviations"],
        ["Deviations"] = ["Coordinates", "Piles"],
        ["Design"] = ["Coordinates", "Piles", "Deviations"],
        ["Bias"] = ["Coordinates", "Deviations"],
        ["Neighbours"] = ["Coordinates", "Deviations"],
        ["Records"] = ["Coordinates", "Piles", "Ground", "Logs"],
        ["Logs"] = ["Coordinates", "Piles"],
        ["Matching"] = ["Coordinates", "Piles"],
        ["Checks"] = ["Coordinates", "Piles", "Logs", "Matching", "Deviations"],
        ["Levels"] = ["Coordinates", "Piles"],
        ["Progress"] = ["Coordinates", "Piles", "Matching", "Checks"],
        ["Outstanding"] = ["Coordinates", "Piles"],
        ["Forecast"] = ["Piles", "Progress"],
        ["Derivation"] = ["Coordinates", "Piles", "Records", "Matching", "Checks", "Deviations", "Bias", "Progress", "Outstanding", "Levels", "Logs", "Treatment", "Ground", "Design"],
        ["SetUps"] = ["Coordinates", "Piles", "Levels", "Progress", "Ground"],
        ["Treatment"] = ["Coordinates", "Piles", "Records", "Matching", "Checks", "Deviations", "Ground", "Progress"],
    };

    /// <summary>The core folders that stand in the rule.</summary>
    public static IReadOnlyCollection<string> CoreFolders => CoreMayUse.Keys;

    public static IReadOnlyList<string> A_core_folder_uses_only_the_folders_below_it(string root)
        => Each(root, "Core", (folder, used) =>
            used.Length > 0 && used != folder && !CoreMayUse.GetValueOrDefault(folder, []).Contains(used));

    public static IReadOnlyList<string> A_page_folder_uses_no_other_page_folder(string root)
        => Each(root, "Web", (folder, used) =>
            folder is not ("Commands" or "Shell" or "") && used.Length > 0 && used != folder && used is not "Shell");

    public static IReadOnlyList<string> The_shell_uses_no_page(string root)
        => Each(root, "Web", (folder, used) => folder == "Shell" && used is not ("Shell" or "Commands" or "SignIn" or "People" or ""))
            .ToArray();

    // ASP.NET Core's sign-in takes the account type of the store; it carries no data of a site.
    private static readonly string[] AccountType = ["SiteProgress.Storage.Accounts.Account"];

    public static IReadOnlyList<string> Pages_name_neither_database_library_nor_store(string root)
        => Code.TypesBelow(root, "Web")
            .Where(type => Code.Folder(type.FullName, $"{root}.Web") is not ("Commands" or ""))
            .SelectMany(type => Code.Uses(type)
                .Where(used => used.StartsWith("Npgsql", StringComparison.Ordinal)
                    || used.StartsWith("Microsoft.EntityFrameworkCore", StringComparison.Ordinal)
                    || (Code.IsBelow(used, "SiteProgress.Storage") && !AccountType.Contains(used)))
                .Select(used => $"{type.FullName} uses {used}"))
            .ToArray();

    public static IReadOnlyList<string> Jobs_know_no_web_framework(string root)
        => Code.TypesBelow(root, "Jobs")
            .SelectMany(type => Code.Uses(type)
                .Where(used => used.StartsWith("Microsoft.AspNetCore", StringComparison.Ordinal)
                    && !used.StartsWith("Microsoft.AspNetCore.Identity", StringComparison.Ordinal)
                    && !used.StartsWith("Microsoft.AspNetCore.DataProtection", StringComparison.Ordinal))
                .Select(used => $"{type.FullName} uses {used}"))
            .ToArray();

    private static string[] Each(string root, string project, Func<string, string, bool> forbidden)
    {
        string space = $"{root}.{project}";
        return Code.TypesBelow(root, project)
            .SelectMany(type => Code.Uses(type)
                .Where(used => Code.IsBelow(used, space) && forbidden(Code.Folder(type.FullName, space), Code.Folder(used, space)))
                .Select(used => $"{type.FullName} uses {used}"))
            .Distinct()
            .ToArray();
    }
}
