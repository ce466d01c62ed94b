using Shouldly;
using Xunit;

namespace SiteProgress.Architecture.Tests;

/// <summary>Each rule holds for the product and bites on a mistake planted in the same folder shape.</summary>
public sealed class FolderRulesTests
{
    private static readonly Dictionary<string, Func<string, IReadOnlyList<string>>> Rules = new()
    {
        [nameof(FolderRules.A_core_folder_uses_only_the_folders_below_it)] = FolderRules.A_core_folder_uses_only_the_folders_below_it,
        [nameof(FolderRules.A_page_folder_uses_no_other_page_folder)] = FolderRules.A_page_folder_uses_no_other_page_folder,
        [nameof(FolderRules.The_shell_uses_no_page)] = FolderRules.The_shell_uses_no_page,
        [nameof(FolderRules.Pages_name_neither_database_library_nor_store)] = FolderRules.Pages_name_neither_database_library_nor_store,
        [nameof(FolderRules.Jobs_know_no_web_framework)] = FolderRules.Jobs_know_no_web_framework,
    };

    public static TheoryData<string> Names => [.. Rules.Keys];

    [Theory]
    [MemberData(nameof(Names))]
    public void The_rule_holds(string rule) => Rules[rule](Code.Product).ShouldBeEmpty();

    [Theory]
    [MemberData(nameof(Names))]
    public void The_rule_bites_on_its_planted_mistake_and_on_nothing_innocent(string rule)
    {
        IReadOnlyList<string> found = Rules[rule](Code.Planted);

        found.ShouldNotBeEmpty();
        found.ShouldAllBe(line => !line.Contains("Innocent uses"));
    }

    [Fact]
    public void Every_core_folder_stands_in_the_rule()
        => Code.TypesBelow(Code.Product, "Core").Select(type => Code.Folder(type.FullName, "SiteProgress.Core")).Where(folder => folder.Length > 0).Distinct()
            .ShouldBeSubsetOf(FolderRules.CoreFolders);
}
