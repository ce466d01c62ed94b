using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using Shouldly;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Accounts;
using SiteProgress.Web.Commands;
using Xunit;

namespace SiteProgress.Web.Tests.SiteGrid;

/// <summary>The pages of the site grid that take something in, over the real server and store: what they say to good and to wrong entries.</summary>
public sealed class SiteGridPagesTests(WebDatabase database) : IClassFixture<WebDatabase>, IAsyncLifetime
{
    private const string Marks = """
        Name,X [m],Y [m],Easting [m],Northing [m],Standard deviation [m]
        CP-1,940.000,1958.400,392589.492,6162982.201,0.004
        CP-2,1255.250,1941.000,392844.338,6162795.958,0.004
        CP-3,1532.600,1966.750,393090.903,6162666.527,0.004
        CP-4,1528.900,2104.300,393162.698,6162783.872,0.004

        """;

    private readonly string site = "site-" + Guid.NewGuid().ToString("N")[..12];
    private RunningWeb web = null!;

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private string Grid => $"/sites/{site}/site-grid";

    public async ValueTask InitializeAsync()
    {
        web = await RunningWeb.StartAsync(database, "--SiteProgress:SignInAttemptsPerMinute=1000");
        await web.OpenSiteAsync(site);
    }

    public ValueTask DisposeAsync() => web.DisposeAsync();

    [Fact]
    public async Task A_surveyor_proposes_looks_and_adopts_and_the_page_then_shows_the_new_revision()
    {
        using HttpClient surveyor = await PersonAsync(Role.Surveyor);
        string page = await SendAsync(surveyor, "/new-adjustment", "proposal", Proposal(Marks));
        foreach (string said in new[] { "Worked out, not adopted: revision 2", "Redundancy", "chi-squared", "Adopt it as revision 2", "keeps the adjustment it was made with" }) page.ShouldContain(said);

        HttpResponseMessage adopted = await RunningWeb.SendFormAsync(surveyor, Grid + "/new-adjustment", "adopt", Adoption(Marks, seen: "1", reason: "Surveyed again"));
        adopted.StatusCode.ShouldBe(HttpStatusCode.Redirect);
        string shown = await surveyor.GetStringAsync(adopted.Headers.Location, Cancellation);
        foreach (string said in new[] { "Adopted as revision 2", "Surveyed again", "Revision 1, adopted" }) shown.ShouldContain(said);

        string late = await SendAsync(surveyor, "/new-adjustment", "adopt", Adoption(Marks, seen: "1", reason: "Looked long ago"));
        late.ShouldContain("Revision 2 was adopted meanwhile");
        late.ShouldContain("Looked long ago"); // what was typed stays
    }

    [Theory]
    [InlineData("", "The list of control points is empty")]
    [InlineData("Name,X,Y,Easting,Northing\nCP-1,abc,2,3,4\n", "Line 2, column X: found")]
    [InlineData("hello", "expected a header with the column titles of control points")]
    [InlineData("Name,X,Y,Easting,Northing\nCP-1,1,2,392589.492,6162982.201\n", "needs at least 2, and one more to be checked")]
    [InlineData("Name,X,Y,Latitude,Longitude\nCP-1,1,2,95 00 00 N,7\nCP-2,1,2,55,7\n", "Line 2, column Latitude")]
    [InlineData("Name,X,Y,Easting,Northing\n<script>alert(1)</script>,1,2,3,4\nB,2,3,4,5\n", "&lt;script&gt;")]
    public async Task A_wrong_list_is_told_and_nothing_can_be_adopted(string list, string said)
    {
        using HttpClient surveyor = await PersonAsync(Role.Surveyor);
        string page = await SendAsync(surveyor, "/new-adjustment", "proposal", Proposal(list));

        page.ShouldContain(said);
        page.ShouldNotContain("<script>alert");
        if (!list.Contains("script", StringComparison.Ordinal)) page.ShouldNotContain("Adopt it as revision");
    }

    [Fact]
    public async Task The_piles_of_a_proposal_come_as_a_file()
    {
        using HttpClient surveyor = await PersonAsync(Role.Surveyor);
        HttpResponseMessage file = await RunningWeb.SendFormAsync(surveyor, Grid + "/new-adjustment", Grid + "/proposal-piles.csv", "proposal", Proposal(Marks));
        file.Content.Headers.ContentType!.MediaType.ShouldBe("text/csv");
        (await file.Content.ReadAsStringAsync(Cancellation)).ShouldContain("Pile,Zone,Easting now [m]");
        (await RunningWeb.SendFormAsync(surveyor, Grid + "/new-adjustment", Grid + "/proposal-piles.csv", "proposal", Proposal("Name,X"))).StatusCode.ShouldBe(HttpStatusCode.BadRequest);
    }

    [Fact]
    public async Task Who_is_no_surveyor_sees_the_grid_and_is_refused_what_changes_it()
    {
        using HttpClient owner = await PersonAsync(Role.OwnersRepresentative);
        (await owner.GetStringAsync(new Uri(Grid, UriKind.Relative), Cancellation)).ShouldNotContain("New adjustment");
        (await owner.GetStringAsync(new Uri(Grid + "/new-adjustment", UriKind.Relative), Cancellation)).ShouldContain("The surveyor proposes and adopts adjustments");
        (await owner.GetStringAsync(new Uri(Grid + "/marks", UriKind.Relative), Cancellation)).ShouldNotContain("Record an observation");

        // The form is not drawn; who sends it all the same changes nothing.
        HttpResponseMessage forced = await RunningWeb.SendFormAsync(owner, Grid + "/crs", Grid + "/proposal-piles.csv", "proposal", Proposal(Marks));
        forced.StatusCode.ShouldBe(HttpStatusCode.Forbidden);
    }

    [Fact]
    public async Task An_observation_is_recorded_followed_and_withdrawn()
    {
        using HttpClient surveyor = await PersonAsync(Role.Surveyor);
        (string, string)[] typed =
        [
            ("Observed.Mark", "CP-1"), ("Observed.Frame", "projected-crs"), ("Observed.First", "392589.492"), ("Observed.Second", "6162982.231"),
            ("Observed.Deviation", "0.004"), ("Observed.Day", "2026-03-20"), ("Observed.Method", "GNSS"),
        ];
        HttpResponseMessage recorded = await RunningWeb.SendFormAsync(surveyor, Grid + "/marks", "observe", typed);
        recorded.StatusCode.ShouldBe(HttpStatusCode.Redirect);
        string page = await surveyor.GetStringAsync(recorded.Headers.Location, Cancellation);
        page.ShouldContain("moved, 30.0 mm");
        (await surveyor.GetStringAsync(new Uri(Grid + "/observations.csv", UriKind.Relative), Cancellation)).ShouldContain("CP-1,2026-03-20,392589.4920,6162982.2310,0.0040,0.0000,0.0300,yes,,GNSS,Someone Invented,");
        JsonElement marks = await surveyor.GetFromJsonAsync<JsonElement>(new Uri($"/api/v1/sites/{site}/site-grid/marks", UriKind.Relative), Cancellation);
        JsonElement observed = marks.GetProperty("controlPoints")[0].GetProperty("observations")[0];
        observed.GetProperty("hasMovedSinceAdopted").GetBoolean().ShouldBeTrue();
        long sequence = observed.GetProperty("record").GetInt64();

        string wrong = await SendAsync(surveyor, "/marks", "observe", [.. typed.Select(field => field.Item1 == "Observed.First" ? (field.Item1, "12a") : field)]);
        wrong.ShouldContain("&quot;12a&quot; is not a number of metres.");
        wrong.ShouldContain("value=\"12a\"");

        string list = await SendAsync(surveyor, "/marks", "observe-list", [("Listed.List", "Name,Observed on,Easting,Northing,Standard deviation,Method\nCP-7,2026-03-20,1,2,0.004,GNSS\n")]);
        list.ShouldContain("Nothing was recorded.");
        list.ShouldContain("Line 2: There is no control point &quot;CP-7&quot;");

        HttpResponseMessage withdrawn = await RunningWeb.SendFormAsync(
            surveyor, Grid + "/marks", $"withdraw-observation-{sequence}", ("Withdrawn.Observation", sequence.ToString(System.Globalization.CultureInfo.InvariantCulture)), ("Withdrawn.Reason", "wrong prism height"));
        withdrawn.StatusCode.ShouldBe(HttpStatusCode.Redirect);
        (await surveyor.GetStringAsync(withdrawn.Headers.Location, Cancellation)).ShouldContain("wrong prism height");
    }

    [Theory]
    [InlineData("measure?from=site-grid&first=0&second=0&first2=300&second2=400", "500.0000 m")]
    [InlineData("measure?from=site-grid&first=x&second=0&first2=1&second2=1", "First point: &quot;x&quot; is not a number")]
    [InlineData("measure?from=site-grid&first=0&second=0&first2=0&second2=0", "The two points are the same.")]
    [InlineData("measure?mark=CP-4&in=projected-crs&m1=393162.698&m2=6162783.872&sigma=0.01", "agrees with the adjustment")]
    [InlineData("measure?mark=CP-4&in=projected-crs&m1=393162.998&m2=6162783.872&sigma=0.01", "was not measured where the adjustment puts it")]
    [InlineData("measure?mark=CP-4&in=projected-crs&m1=393162.998&m2=6162783.872&sigma=-1", "is not a standard deviation")]
    [InlineData("measure?mark=%3Cb%3E&in=site-grid&m1=1&m2=2&sigma=0.01", "There is no control point")]
    [InlineData("convert?from=other-datum&first=55.6&second=7.3", "none is ever applied by itself")]
    public async Task A_line_or_a_check_point_in_the_address_is_answered_in_words(string address, string said)
    {
        using HttpClient owner = await PersonAsync(Role.OwnersRepresentative);
        (await owner.GetStringAsync(new Uri($"{Grid}/{address}", UriKind.Relative), Cancellation)).ShouldContain(said);
    }

    [Fact]
    public async Task A_point_on_another_datum_names_the_shift_and_its_accuracy()
    {
        using HttpClient owner = await PersonAsync(Role.OwnersRepresentative);
        JsonElement systems = await owner.GetFromJsonAsync<JsonElement>(new Uri($"/api/v1/sites/{site}/site-grid/shifts", UriKind.Relative), Cancellation);
        JsonElement ed50 = systems.EnumerateArray().Single(other => other.GetProperty("name").GetString() == "ED50");
        JsonElement shift = ed50.GetProperty("shifts")[0];
        string page = await owner.GetStringAsync(new Uri($"{Grid}/convert?from=site-grid&first=1250&second=2030&shift={shift.GetProperty("epsgCode").GetInt32()}", UriKind.Relative), Cancellation);

        page.ShouldContain(shift.GetProperty("name").GetString()!);
        page.ShouldContain("stated accuracy");
        page.ShouldContain("ED50");
    }

    [Fact]
    public async Task An_administrator_tries_a_definition_and_puts_it_at_the_surveyors_disposal()
    {
        using HttpClient administrator = await PersonAsync(Role.Administrator);
        (await SendAsync(administrator, "/crs", "try-crs", [("Tried.Definition", "EPSG:4326")])).ShouldContain("is a geographic system (latitude and longitude), not a projected one");
        (await SendAsync(administrator, "/crs", "try-crs", [("Tried.Definition", "99999")])).ShouldContain("There is no EPSG code 99999");
        (await SendAsync(administrator, "/crs", "try-crs", [("Tried.Definition", "PROJCS[\"a\",GEOGCS[\"b\"")])).ShouldContain("cut short");
        string feet = await SendAsync(administrator, "/crs", "try-crs", [("Tried.Definition", "2230")]);
        foreach (string said in new[] { "US survey foot", "Lambert", "count from Greenwich", "on another datum" }) feet.ShouldContain(said);

        HttpResponseMessage offered = await RunningWeb.SendFormAsync(administrator, Grid + "/crs", "offer-crs", ("Offered.Definition", "2230"), ("Offered.Reason", "To try it"));
        offered.StatusCode.ShouldBe(HttpStatusCode.Redirect);
        using HttpClient surveyor = await PersonAsync(Role.Surveyor);
        (await surveyor.GetStringAsync(new Uri(Grid + "/new-adjustment", UriKind.Relative), Cancellation)).ShouldContain("California zone 6");
        (await RunningWeb.SendFormAsync(surveyor, Grid + "/crs", "offer-crs", ("Offered.Definition", "2231"), ("Offered.Reason", "no right"))).StatusCode.ShouldBe(HttpStatusCode.BadRequest);
        (await surveyor.GetStringAsync(new Uri(Grid + "/crs", UriKind.Relative), Cancellation)).ShouldNotContain("no right");
    }

    [Fact]
    public async Task A_list_of_a_site_goes_through_the_command_by_its_adjustment()
    {
        string folder = Directory.CreateTempSubdirectory("siteprogress-convert-").FullName;
        try
        {
            string input = Path.Combine(folder, "in.csv"), output = Path.Combine(folder, "out.csv");
            await File.WriteAllTextAsync(input, "X,Y,Name\n940.000,1958.400,CP-1\n", Cancellation);
            using StringWriter said = new(), error = new();
            int status = await CommandLine.RunAsync(["convert", site, "siteGrid", "projectedCrs", input, output, $"--ConnectionStrings:Web={database.WebConnectionString}", $"--SiteProgress:DataFolder={folder}"], said, error);

            status.ShouldBe(0, error.ToString());
            string[] cells = (await File.ReadAllLinesAsync(output, Cancellation))[1].Split(',');
            double.Parse(cells[0], System.Globalization.CultureInfo.InvariantCulture).ShouldBe(392589.492, 0.02); // CP-1 as surveyed; its residual is below 20 mm
            double.Parse(cells[1], System.Globalization.CultureInfo.InvariantCulture).ShouldBe(6162982.201, 0.02);
            cells[2].ShouldBe("CP-1");

            using StringWriter none = new(), refused = new();
            (await CommandLine.RunAsync(["convert", "nowhere", "siteGrid", "projectedCrs", input, output, $"--ConnectionStrings:Web={database.WebConnectionString}", $"--SiteProgress:DataFolder={folder}"], none, refused)).ShouldBe(1);
            refused.ToString().ShouldContain("There is no site 'nowhere'.");

            JsonElement systems = await (await PersonAsync(Role.OwnersRepresentative)).GetFromJsonAsync<JsonElement>(new Uri($"/api/v1/sites/{site}/site-grid/shifts", UriKind.Relative), Cancellation);
            int shift = systems.EnumerateArray().First(one => one.GetProperty("name").GetString() == "ED50").GetProperty("shifts")[0].GetProperty("epsgCode").GetInt32();
            (await CommandLine.RunAsync(["convert", site, "siteGrid", $"otherDatum:{shift}", input, output, $"--ConnectionStrings:Web={database.WebConnectionString}", $"--SiteProgress:DataFolder={folder}"], none, refused)).ShouldBe(0, refused.ToString());
            double.Parse((await File.ReadAllLinesAsync(output, Cancellation))[1].Split(',')[0], System.Globalization.CultureInfo.InvariantCulture).ShouldBe(55.6, 0.1);
            using StringWriter wrong = new();
            (await CommandLine.RunAsync(["convert", site, "siteGrid", "otherDatum:1", input, output, $"--ConnectionStrings:Web={database.WebConnectionString}", $"--SiteProgress:DataFolder={folder}"], none, wrong)).ShouldBe(1);
            wrong.ToString().ShouldContain("EPSG:1 is not a shift");
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static (string, string)[] Proposal(string marks) =>
        [("Proposed.Marks", marks), ("Proposed.Kind", "similarity"), ("Proposed.FixedScale", "1"), ("Proposed.Axes", "right"), ("Proposed.Deviation", "0.005")];

    private static (string, string)[] Adoption(string marks, string seen, string reason) =>
    [
        .. Proposal(marks).Select(field => (field.Item1.Replace("Proposed.", "Adopting.", StringComparison.Ordinal), field.Item2)),
        ("Adopting.Seen", seen), ("Adopting.WarningsRead", "yes"), ("Adopting.Reason", reason),
    ];

    private async Task<string> SendAsync(HttpClient browser, string page, string handler, (string, string)[] typed)
        => await (await RunningWeb.SendFormAsync(browser, Grid + page, handler, typed)).Content.ReadAsStringAsync(Cancellation);

    private async Task<HttpClient> PersonAsync(Role role)
    {
        string email = $"{Guid.NewGuid():N}@example.org";
        await web.GrantAsync(site, await web.PersonAsync(email), role);
        HttpClient browser = web.Browser();
        await RunningWeb.SignInAsync(browser, email);
        return browser;
    }
}
