using System.Text.RegularExpressions;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace SiteProgress.Browser.Tests.MainJob;

/// <summary>The three actions by which a file comes in: choose, look, record.</summary>
internal static partial class RecordsInSteps
{
    /// <summary>Chooses a file through the browser's own chooser and sends it; ends on the page that shows what it holds.</summary>
    public static async Task SendAsync(this Visit visit, string site, FilePayload file)
    {
        await visit.GoAsync($"/sites/{site}/records-in");
        var chooser = await visit.Page.RunAndWaitForFileChooserAsync(() => visit.Page.Locator("input[type=file]").ClickAsync());
        await chooser.SetFilesAsync(file);
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "Send and look at it" }).ClickAsync();
        await Expect(visit.Page.GetByRole(AriaRole.Heading, new() { Name = file.Name, Exact = true })).ToBeVisibleAsync();
    }

    /// <summary>Records the file that is shown.</summary>
    public static async Task RecordAsync(this Visit visit)
    {
        await visit.Page.GetByRole(AriaRole.Button, new() { NameRegex = RecordRows() }).ClickAsync();
        await Expect(visit.Page.GetByText("Recorded:")).ToBeVisibleAsync();
    }

    /// <summary>A figure of the page by its label.</summary>
    public static ILocator Figure(this Visit visit, string label)
        => visit.Page.Locator(".figure").Filter(new() { Has = visit.Page.GetByText(label, new() { Exact = true }) }).Locator("dd");

    /// <summary>A file of the demonstration, to be sent.</summary>
    public static FilePayload Seed(string name)
        => new() { Name = Path.GetFileName(name), MimeType = "text/csv", Buffer = File.ReadAllBytes(ServedSites.SeedFile(name)) };

    /// <summary>A count as pages write it: thousands parted by a thin space.</summary>
    public static string Shown(long count)
        => count.ToString("N0", new System.Globalization.NumberFormatInfo { NumberGroupSeparator = "\u2009" });

    [GeneratedRegex("^Record .* rows?$")]
    private static partial Regex RecordRows();
}
