using System.Text;
using Microsoft.Playwright;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace SiteProgress.Browser.Tests.MainJob;

/// <summary>The log of a pile on its page, and the form that attaches evidence, as people use them.</summary>
[Collection(ServedSites.Collection)]
public sealed class LogTests(ServedSites sites) : BrowserTest(sites)
{
    private const string Demo = ServedSites.Demo;

    /// <summary>The pile whose log shows a gap that no later pass closed.</summary>
    private const string Gap = "A-1338";

    [Theory]
    [InlineData(Desk)]
    [InlineData(Phone)]
    public async Task A_gap_is_a_finding_with_its_event_in_the_chart_and_its_numbers_by_keyboard(int width)
    {
        var owner = await VisitAsync(Person.OwnersRepresentative, width);
        await owner.GoAsync($"/sites/{Demo}/piles/{Gap}#log");
        await Expect(owner.Page.Locator("tr[data-check=Continuity] .verdict")).ToContainTextAsync("not met");
        var chart = owner.Page.Locator(".log-place");
        await Expect(chart.Locator("canvas").First).ToBeVisibleAsync();

        await chart.FocusAsync();
        await owner.Page.Keyboard.PressAsync("ArrowRight");
        await Expect(owner.Page.GetByRole(AriaRole.Status, new() { Name = "Values at the cursor" })).ToContainTextAsync("casing tip");
        await owner.Page.GetByRole(AriaRole.Button, new() { NameRegex = new("^hang-up") }).ClickAsync();
        await Expect(owner.Page.GetByText("no later pass went below it").First).ToBeVisibleAsync();
    }

    [Fact]
    public async Task A_picture_is_attached_by_the_form_and_a_text_that_is_no_log_is_refused_with_the_reason()
    {
        var surveyor = await VisitAsync(Person.Surveyor);
        await surveyor.GoAsync($"/sites/{Demo}/piles/{Gap}#attachments");
        var files = surveyor.Page.GetByRole(AriaRole.Region, new() { Name = "Photos and documents" });
        await AttachAsync(files, "hello.txt", "text/plain", Encoding.UTF8.GetBytes("This is no log."), "a text");
        await Expect(files).ToContainTextAsync("Nothing was kept");

        await surveyor.GoAsync($"/sites/{Demo}/piles/{Gap}");
        // A picture of one grey pixel, as a camera writes it.
        byte[] pixel = Convert.FromBase64String("iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNoAAAAggCBd81ytgAAAABJRU5ErkJggg==");
        await AttachAsync(files, "head.png", "image/png", pixel, "the head of the pile");
        await Expect(files.GetByRole(AriaRole.Row).Filter(new() { HasText = "the head of the pile" })).ToContainTextAsync("head.png");
    }

    private static async Task AttachAsync(ILocator files, string name, string kind, byte[] bytes, string note)
    {
        await files.GetByText("Attach a file").ClickAsync();
        await files.GetByLabel("What it shows (may be left out)").FillAsync(note);
        await files.Locator("input[type=file]").SetInputFilesAsync(new FilePayload { Name = name, MimeType = kind, Buffer = bytes });
        await files.GetByRole(AriaRole.Button, new() { Name = "Attach" }).ClickAsync();
    }
}
