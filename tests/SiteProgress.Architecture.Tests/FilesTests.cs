using System.Text.RegularExpressions;
using System.Xml.Linq;
using Shouldly;
using Xunit;

namespace SiteProgress.Architecture.Tests;

/// <summary>Rules that only the text of the files can show.</summary>
public sealed partial class FilesTests
{
    private static readonly string[] Projects = ["Core", "Exchange", "Storage", "Planning", "Jobs", "Web"];

    [Theory]
    [InlineData("Core", "")]
    [InlineData("Exchange", "Core")]
    [InlineData("Storage", "Core")]
    [InlineData("Planning", "Core")]
    [InlineData("Jobs", "Core Exchange Planning Storage")]
    [InlineData("Web", "Core Exchange Jobs Storage")]
    public void A_project_references_only_what_lies_below_it(string project, string below)
        => References($"src/SiteProgress.{project}/SiteProgress.{project}.csproj").Order().ShouldBe(below.Split(' ', StringSplitOptions.RemoveEmptyEntries).Order());

    [Fact]
    public void The_demo_generator_references_no_project()
        => References("tests/SiteProgress.DemoGenerator/SiteProgress.DemoGenerator.csproj").ShouldBeEmpty();

    [Fact]
    public void Every_project_on_disk_is_in_the_solution()
    {
        string solution = File.ReadAllText(Path.Combine(Repository.Root, "SiteProgress.sln")).Replace('\\', '/');

        foreach (string project in Repository.Files("src", ".csproj").Concat(Repository.Files("tests", ".csproj")))
        {
            solution.ShouldContain(Repository.Relative(project).Replace('\\', '/'));
        }
    }

    [Fact]
    public void Web_names_the_database_libraries_nowhere()
        => Offending(Repository.Files("src/SiteProgress.Web", ".cs", ".razor"), DatabaseLibrary()).ShouldBeEmpty();

    [Fact]
    public void Nothing_that_reaches_a_browser_is_made_from_markup_in_a_string()
        => Offending(Served(".cs", ".razor", ".js", ".mjs"), MarkupFromText()).ShouldBeEmpty();

    [Theory]
    [InlineData("element.innerHTML = name;")]
    [InlineData("layer.bindPopup(`<b>${name}</b>`)")]
    [InlineData("@((MarkupString)remark)")]
    [InlineData("node.insertAdjacentHTML('beforeend', text)")]
    [InlineData("document.write(text)")]
    public void The_ban_on_markup_in_strings_bites(string planted) => MarkupFromText().IsMatch(planted).ShouldBeTrue();

    [Fact]
    public void Pages_need_no_host_but_their_own()
        => Offending(Served(".razor", ".js", ".mjs", ".css", ".html"), OutsideHost()).ShouldBeEmpty();

    [Theory]
    [InlineData("<script src=\"https://cdn.example.org/a.js\">")]
    [InlineData("@import url(//fonts.example.org/a.css)")]
    public void The_ban_on_other_hosts_bites(string planted) => OutsideHost().IsMatch(planted).ShouldBeTrue();

    [Fact]
    public void Pages_stay_short()
        => Repository.Files("src/SiteProgress.Web", ".razor")
            .Select(path => (Path: Repository.Relative(path), Lines: File.ReadLines(path).Count()))
            .Where(page => page.Lines > 260)
            .ShouldBeEmpty();

    [Fact]
    public void Sources_stay_short()
        => Projects.SelectMany(project => Repository.Files($"src/SiteProgress.{project}", ".cs"))
            .Where(path => !path.Contains("Migrations", StringComparison.Ordinal))
            .Select(path => (Path: Repository.Relative(path), Lines: File.ReadLines(path).Count()))
            .Where(file => file.Lines > 420)
            .ShouldBeEmpty();

    [Theory]
    [InlineData("README.md")]
    [InlineData("DEVELOPERS.md")]
    public void Every_path_a_guide_names_exists(string guide)
    {
        string text = File.ReadAllText(Path.Combine(Repository.Root, guide));

        foreach (Match path in PathInGuide().Matches(text))
        {
            string named = path.Groups[1].Value.TrimEnd('/');
            (File.Exists(Path.Combine(Repository.Root, named)) || Directory.Exists(Path.Combine(Repository.Root, named)))
                .ShouldBeTrue($"{guide} names {named}, which does not exist");
        }
    }

    /// <summary>What the web serves: its folder without the client's own tests and its development page.</summary>
    private static IEnumerable<string> Served(params string[] endings)
        => Repository.Files("src/SiteProgress.Web", endings)
            .Where(path => !Repository.Relative(path).Split(Path.DirectorySeparatorChar).Any(folder => folder is "dev" or "tests"));

    private static IEnumerable<string> References(string project)
        => XDocument.Load(Path.Combine(Repository.Root, project)).Descendants("ProjectReference")
            .Select(reference => Path.GetFileNameWithoutExtension(reference.Attribute("Include")!.Value.Replace('\\', '/')).Replace("SiteProgress.", "", StringComparison.Ordinal));

    private static string[] Offending(IEnumerable<string> files, Regex pattern)
        => files.SelectMany(path => File.ReadLines(path)
                .Select((line, index) => (Line: line, Number: index + 1))
                .Where(one => !one.Line.TrimStart().StartsWith("//", StringComparison.Ordinal) && pattern.IsMatch(one.Line))
                .Select(one => $"{Repository.Relative(path)}:{one.Number} {one.Line.Trim()}"))
            .ToArray();

    [GeneratedRegex(@"\b(Npgsql|Microsoft\.EntityFrameworkCore)\b")]
    private static partial Regex DatabaseLibrary();

    [GeneratedRegex(@"\b(innerHTML|outerHTML|insertAdjacentHTML|bindPopup|bindTooltip\((?!make\()|setContent|document\.write|MarkupString|AddMarkupContent|eval\()")]
    private static partial Regex MarkupFromText();

    [GeneratedRegex(@"(https?:)?//(?!www\.w3\.org/)[a-z0-9-]+(\.[a-z0-9-]+)+/")]
    private static partial Regex OutsideHost();

    [GeneratedRegex(@"`((?:src|tests|scripts|seed-data|\.ci)/[A-Za-z0-9_./-]*)`")]
    private static partial Regex PathInGuide();
}
