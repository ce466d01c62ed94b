using Microsoft.Playwright;
using Shouldly;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace SiteProgress.Browser.Tests.Map;

/// <summary>The map module by itself, in a real browser, on bytes written from its description.</summary>
public sealed class MapModuleTests(MapBrowser shared) : IClassFixture<MapBrowser>
{
    private const double Latitude = 43.52, Longitude = 141.30;

    // Ten metres apart along a parallel, so that at zoom 20 each lies alone under the pointer.
    private static readonly SamplePile[] Piles =
    [
        new("A-001", Latitude, Longitude, State: 3, Barge: 0, Day: 1, DeviationEast: 120, DeviationNorth: -50, BuiltDiameter: 1.3f),
        new("A-002", Latitude, Longitude + 0.000124, State: 2, Barge: 1, Day: 0, DeviationEast: 10, DeviationNorth: 20, BuiltDiameter: 1.28f),
        new("A-003", Latitude, Longitude + 0.000248, State: 0),
        new("<img src=x onerror=alert(1)>", Latitude, Longitude + 0.000372, State: 0, Zone: 1),
    ];

    // X runs east and Y north from the first pile; one degree is 111 105 m of latitude and 80 816 m of longitude near enough for reading out.
    private static readonly object Preamble = new
    {
        zones = new[] { "A", "<b>B</b>" },
        barges = new[] { "Tern", "Plover" },
        days = new[] { "2026-04-01", "2026-04-02" },
        recordSequence = 17,
        recordedAt = "2026-04-02 18:00",
        siteGrid = new
        {
            axes = new[] { "X", "Y" }, centreLatitude = Latitude, centreLongitude = Longitude, spanLatitude = 0.01, spanLongitude = 0.01,
            first = new[] { 1000, 808.16, 0 }, second = new[] { 500, 0, 1111.05 }, largestErrorMetres = 0.0001,
        },
    };

    private static readonly byte[] Data = SamplePileData.Write(Preamble, Piles);
    private const string AtFirstPile = "?at=43.52,141.30,20";

    [Fact]
    public async Task The_legend_counts_each_state_and_the_read_out_names_both_frames()
    {
        await using var map = await MapModulePage.OpenAsync(shared.Browser, Data, AtFirstPile);
        await Expect(map.Page.GetByRole(AriaRole.Button, new() { Name = "outstanding 2" })).ToBeVisibleAsync();
        await Expect(map.Page.GetByRole(AriaRole.Button, new() { Name = "finding 1" })).ToBeVisibleAsync();
        await Expect(map.Page.GetByRole(AriaRole.Status)).ToHaveTextAsync("4 of 4 piles shown");
        await Expect(map.Page.Locator(".read-out-site")).ToHaveTextAsync("X 1\u2009000.000 m  Y 500.000 m");
        await Expect(map.Page.Locator(".read-out-earth")).ToHaveTextAsync("43.52000000° N, 141.30000000° E (WGS 84)");
        map.Complaints.ShouldBeEmpty();
    }

    [Fact]
    public async Task The_pile_under_the_pointer_says_its_deviation_and_a_click_opens_its_record()
    {
        await using var map = await MapModulePage.OpenAsync(shared.Browser, Data, AtFirstPile);
        var middle = await MiddleAsync(map.Page);
        await map.Page.Mouse.MoveAsync(middle.X, middle.Y);
        var card = map.Page.Locator(".map-card");
        await Expect(card).ToContainTextAsync("A-001 finding");
        await Expect(card).ToContainTextAsync("130 mm"); // 120 and 50 by Pythagoras
        await Expect(card).ToContainTextAsync("120, \u221250 mm");
        await map.Page.Mouse.ClickAsync(middle.X, middle.Y);
        await Expect(map.Page.Locator("#record")).ToHaveTextAsync("/piles/A-001");
    }

    [Fact]
    public async Task A_plan_handed_over_is_where_the_map_begins_and_its_set_ups_show_their_numbers_from_near()
    {
        const string plan = """
            { "type": "FeatureCollection", "features": [
              { "type": "Feature", "properties": { "kind": "plan-anchors", "name": "anchors 1" }, "geometry": { "type": "Polygon", "coordinates": [[[141.3, 43.52], [141.3004, 43.52], [141.3004, 43.5203], [141.3, 43.5203], [141.3, 43.52]]] } },
              { "type": "Feature", "properties": { "kind": "plan-way", "name": null }, "geometry": { "type": "LineString", "coordinates": [[141.3001, 43.5201], [141.3003, 43.5201]] } },
              { "type": "Feature", "properties": { "kind": "plan-set-up", "name": "1" }, "geometry": { "type": "Point", "coordinates": [141.3001, 43.5201] } },
              { "type": "Feature", "properties": { "kind": "plan-set-up", "name": "<b>2</b>" }, "geometry": { "type": "Point", "coordinates": [141.3003, 43.5201] } }] }
            """;
        await using var map = await MapModulePage.OpenAsync(shared.Browser, Data, overlay: plan);
        await Expect(map.Page.Locator("path.drawing-plan-anchors")).ToHaveCountAsync(1);
        await Expect(map.Page.Locator("path.drawing-plan-set-up")).ToHaveCountAsync(2);
        await Expect(map.Page.Locator(".drawing-name-plan-set-up")).ToHaveTextAsync(["1", "<b>2</b>"]);
        await Expect(map.Page.Locator(".drawing-name-plan-set-up").First).ToBeVisibleAsync();
        var box = (await map.Page.Locator("path.drawing-plan-anchors").BoundingBoxAsync())!;
        box.Width.ShouldBeGreaterThan(200, "the reach of 32 m should fill the map");
        for (var times = 0; times < 4; times++) await map.Page.GetByRole(AriaRole.Button, new() { Name = "Zoom out" }).ClickAsync();
        await Expect(map.Page.Locator(".drawing-name-plan-set-up").First).ToBeHiddenAsync();
        await Expect(map.Page.Locator(".drawing-name-plan-anchors")).ToBeVisibleAsync();
        map.Complaints.ShouldBeEmpty();
    }

    [Fact]
    public async Task Filters_narrow_the_map_and_live_in_the_address()
    {
        await using var map = await MapModulePage.OpenAsync(shared.Browser, Data, AtFirstPile);
        await map.Page.GetByRole(AriaRole.Button, new() { Name = "finding" }).ClickAsync();
        await Expect(map.Page.GetByRole(AriaRole.Status)).ToHaveTextAsync("1 of 4 piles shown");
        await map.Page.WaitForURLAsync(url => url.Contains("state=finding", StringComparison.Ordinal));
        await map.Page.ReloadAsync();
        await Expect(map.Page.GetByRole(AriaRole.Status)).ToHaveTextAsync("1 of 4 piles shown");
        await Expect(map.Page.GetByRole(AriaRole.Button, new() { Name = "finding" })).ToHaveAttributeAsync("aria-pressed", "true");
    }

    [Fact]
    public async Task As_of_the_first_day_only_what_was_built_by_then_counts()
    {
        await using var map = await MapModulePage.OpenAsync(shared.Browser, Data, AtFirstPile + "&through=2026-04-01");
        await Expect(map.Page.GetByRole(AriaRole.Button, new() { Name = "outstanding 3" })).ToBeVisibleAsync();
        await Expect(map.Page.GetByRole(AriaRole.Button, new() { Name = "finding 0" })).ToBeVisibleAsync();
        await map.Page.GetByRole(AriaRole.Slider).PressAsync("ArrowRight");
        await Expect(map.Page.GetByRole(AriaRole.Button, new() { Name = "finding 1" })).ToBeVisibleAsync();
    }

    [Fact]
    public async Task Markup_in_a_number_or_a_zone_is_shown_as_text()
    {
        await using var map = await MapModulePage.OpenAsync(shared.Browser, Data, "?at=43.52,141.300372,20");
        await Expect(map.Page.GetByRole(AriaRole.Button, new() { Name = "<b>B</b>" })).ToBeVisibleAsync();
        var middle = await MiddleAsync(map.Page);
        await map.Page.Mouse.MoveAsync(middle.X, middle.Y);
        await Expect(map.Page.Locator(".map-card")).ToContainTextAsync(Piles[3].Number);
        await map.Page.GetByText("Piles in view").ClickAsync();
        await Expect(map.Page.Locator(".map-list a").First).ToContainTextAsync(Piles[3].Number);
        (await map.Page.Locator("#map img, #map b").CountAsync()).ShouldBe(0);
        map.Complaints.ShouldBeEmpty();
    }

    [Fact]
    public async Task By_keyboard_the_map_moves_and_the_list_opens_a_record()
    {
        await using var map = await MapModulePage.OpenAsync(shared.Browser, Data, AtFirstPile);
        await map.Page.GetByRole(AriaRole.Application).FocusAsync();
        await map.Page.Keyboard.PressAsync("ArrowRight");
        await Expect(map.Page.Locator(".read-out-site")).Not.ToHaveTextAsync("X 1\u2009000.000 m  Y 500.000 m");
        await map.Page.GetByText("Piles in view").FocusAsync();
        await map.Page.Keyboard.PressAsync("Enter");
        await Expect(map.Page.Locator(".map-list a")).ToHaveCountAsync(4);
        await map.Page.Keyboard.PressAsync("Tab");
        await map.Page.Keyboard.PressAsync("Enter");
        await Expect(map.Page.Locator("#record")).ToContainTextAsync("/piles/");
    }

    [Fact]
    public async Task Data_that_cannot_be_loaded_are_said_and_fetched_again_when_asked()
    {
        await using var map = await MapModulePage.OpenAsync(shared.Browser, null);
        await Expect(map.Page.GetByText("The piles could not be loaded.")).ToBeVisibleAsync();
        map.PileData = Data;
        await map.Page.GetByRole(AriaRole.Button, new() { Name = "Try again" }).ClickAsync();
        await Expect(map.Page.GetByRole(AriaRole.Status)).ToHaveTextAsync("4 of 4 piles shown");
    }

    [Fact]
    public async Task On_a_phone_nothing_is_wider_than_the_screen()
    {
        await using var map = await MapModulePage.OpenAsync(shared.Browser, Data, AtFirstPile, width: 390, height: 844);
        await map.Page.GetByText("Legend and filters").ClickAsync();
        (await map.Page.EvaluateAsync<int>("document.documentElement.scrollWidth")).ShouldBe(390);
    }

    private static async Task<(float X, float Y)> MiddleAsync(IPage page)
    {
        var box = (await page.Locator(".map-ground").BoundingBoxAsync())!;
        return (box.X + box.Width / 2, box.Y + box.Height / 2);
    }
}
