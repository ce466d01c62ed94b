using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Sockets;
using System.Text;
using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using Shouldly;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Accounts;
using Xunit;

namespace SiteProgress.Web.Tests.SiteGrid;

/// <summary>Lists of coordinates through the interface for programs: converted as they stream, in either form.</summary>
public sealed class ConvertStreamTests(WebDatabase database) : IClassFixture<WebDatabase>, IAsyncLifetime
{
    private readonly string site = "site-" + Guid.NewGuid().ToString("N")[..12];
    private RunningWeb web = null!;
    private string token = "";

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        web = await RunningWeb.StartAsync(database);
        await web.OpenSiteAsync(site);
        Guid person = await web.PersonAsync($"{Guid.NewGuid():N}@example.org");
        await web.GrantAsync(site, person, Role.OwnersRepresentative);
        token = await web.Services.GetRequiredService<PersonalTokens>().MakeAsync(person, "test", Cancellation);
    }

    public ValueTask DisposeAsync() => web.DisposeAsync();

    [Fact]
    public async Task A_table_comes_back_line_by_line_with_what_stood_behind_the_coordinates()
    {
        string[] lines = (await (await SendAsync("from=siteGrid&to=projectedCrs", "text/csv", "X,Y,Name\n940.000,1958.400,CP-1\nwrong,1,lost\n"))
            .Content.ReadAsStringAsync(Cancellation)).Split('\n');

        lines[0].ShouldBe("Easting [m],Northing [m],Name");
        lines[1].ShouldStartWith("39258"); // CP-1 was surveyed at 392589.492 6162982.201
        lines[1].ShouldEndWith(",CP-1");
        lines[2].ShouldBe(",,lost,\"Line 3: found \u201Cwrong,1,lost\u201D; expected two numbers with a decimal point in the first two cells.\"");
    }

    [Fact]
    public async Task An_array_comes_back_as_an_array_and_what_cannot_be_is_refused_in_its_place()
    {
        JsonElement[] points = await ArrayAsync("from=siteGrid&to=geographic", "[[940,1958.4],[1,2,3],null,[1e999,0],{\"x\":[1]},[\"1\",2],[[1],2]]");
        points[0][0].GetDouble().ShouldBeInRange(55.5, 55.7);
        points[1].GetProperty("refusal").GetString()!.ShouldContain("two numbers");
        points[2].GetProperty("refusal").GetString()!.ShouldContain("two numbers");
        points[1..].ShouldAllBe(point => point.ValueKind == JsonValueKind.Object);
        points[3].GetProperty("refusal").GetString()!.ShouldContain("cannot be projected");
        points.Length.ShouldBe(7);

        JsonElement[] back = await ArrayAsync("from=geographic&to=siteGrid", $"[[{points[0][0]},{points[0][1]}]]");
        back[0][0].GetDouble().ShouldBe(940, 1e-4);
    }

    [Theory]
    [InlineData("[[1,2],[3", 1)]
    [InlineData("hello", 0)]
    [InlineData("", 0)]
    public async Task A_body_that_breaks_off_says_where(string body, int good)
    {
        JsonElement[] points = await ArrayAsync("from=siteGrid&to=projectedCrs", body);
        points[^1].GetProperty("stopped").GetString()!.ShouldContain("expected an array of pairs of numbers");
        points.Length.ShouldBe(good + 1);
    }

    [Theory]
    [InlineData("from=feet&to=geographic", "text/csv", HttpStatusCode.BadRequest, "from and to are siteGrid")]
    [InlineData("from=siteGrid", "text/csv", HttpStatusCode.BadRequest, "from and to are siteGrid")]
    [InlineData("from=siteGrid&to=geographic", "text/html", HttpStatusCode.UnsupportedMediaType, "Unsupported Media Type")]
    [InlineData("from=siteGrid&to=otherDatum", "text/csv", HttpStatusCode.BadRequest, "none is ever applied by itself")]
    [InlineData("from=siteGrid&to=otherDatum&shift=1", "text/csv", HttpStatusCode.BadRequest, "EPSG:1 is not a shift")]
    public async Task What_cannot_be_asked_is_refused_before_anything_is_read(string query, string type, HttpStatusCode status, string said)
    {
        HttpResponseMessage answer = await SendAsync(query, type, "1,2\n");
        answer.StatusCode.ShouldBe(status);
        (await answer.Content.ReadAsStringAsync(Cancellation)).ShouldContain(said);
    }

    /// <summary>
    /// The first converted lines come back while the sender has not ended, and holds the rest until it has read them: an answer
    /// made after the whole request would never come.
    /// </summary>
    [Theory]
    [InlineData("text/csv", "940.000,1958.400,A\n", "\n")]
    [InlineData("application/json", "[940.000,1958.400],\n", ",")]
    public async Task The_answer_begins_before_the_request_ends(string type, string line, string delimiter)
    {
        using TcpClient client = new();
        await client.ConnectAsync(web.Address.Host, web.Address.Port, Cancellation);
        NetworkStream stream = client.GetStream();
        await WriteAsync(stream, $"POST /api/v1/sites/{site}/convert/stream?from=siteGrid&to=projectedCrs HTTP/1.1\r\nHost: {web.Address.Authority}\r\nAuthorization: Bearer {token}\r\nContent-Type: {type}\r\nTransfer-Encoding: chunked\r\nConnection: close\r\n\r\n");
        string part = (type == "text/csv" ? "" : "[") + string.Concat(Enumerable.Repeat(line, 20_000));
        await ChunkAsync(stream, part);

        string begun = await ReadUntilAsync(stream, text => text.Contains("39258", StringComparison.Ordinal));
        begun.ShouldStartWith("HTTP/1.1 200");
        await ChunkAsync(stream, type == "text/csv" ? "end,of,list\n" : "[1]]");
        await WriteAsync(stream, "0\r\n\r\n");
        string rest = begun + await ReadUntilAsync(stream, _ => false);
        rest.ShouldContain(type == "text/csv" ? "Line 20001" : "The point does not have two numbers.");
        rest.ShouldContain(delimiter);
    }

    [Fact]
    public async Task A_line_without_an_end_is_not_held_for_ever()
    {
        HttpResponseMessage answer = await SendAsync("from=siteGrid&to=projectedCrs", "text/csv", "1,2\n" + new string('7', 3 << 20));
        string[] lines = (await answer.Content.ReadAsStringAsync(Cancellation)).Split('\n', StringSplitOptions.RemoveEmptyEntries);
        lines.Length.ShouldBe(2);
        lines[1].ShouldContain("Line 2: expected a line of at most 1048576 bytes");
    }

    [Fact]
    public async Task The_interface_describes_it_with_its_limits()
    {
        using HttpClient program = Program();
        string description = await program.GetStringAsync(new Uri("/openapi/v1.json", UriKind.Relative), Cancellation);
        foreach (string said in new[] { "/convert/stream", "At most 4 GiB a request", "gets one more that says why", "/site-grid/proposals", "/site-grid/shifts", "/site-grid/marks" }) description.ShouldContain(said);
    }

    [Theory]
    [InlineData("line?from=siteGrid&first=0&second=0&first2=300&second2=400", "\"siteGridMetres\":500")]
    [InlineData("line?from=siteGrid&first=0&second=0", "first2 and second2 of the other")]
    [InlineData("check-point?mark=CP-1&measuredIn=projectedCrs&first=392589.492&second=6162982.201&standardDeviationMetres=0.01", "\"agrees\":true")]
    [InlineData("check-point?mark=CP-1&measuredIn=projectedCrs&first=392589.592&second=6162982.201&standardDeviationMetres=0.01", "\"agrees\":false")]
    [InlineData("check-point?mark=none&measuredIn=siteGrid&first=1&second=2&standardDeviationMetres=0.01", "There is no control point")]
    [InlineData("crs?definition=2230", "US survey foot")]
    [InlineData("crs?definition=4326", "is a geographic system")]
    [InlineData("crs", "Give an EPSG code")]
    public async Task What_the_pages_say_of_lines_marks_and_systems_programs_read_too(string address, string said)
    {
        using HttpClient program = Program();
        HttpResponseMessage answer = await program.GetAsync(new Uri($"/api/v1/sites/{site}/site-grid/{address}", UriKind.Relative), Cancellation);
        (await answer.Content.ReadAsStringAsync(Cancellation)).ShouldContain(said);
        answer.StatusCode.ShouldBe(said.StartsWith('"') || said.StartsWith("US", StringComparison.Ordinal) ? HttpStatusCode.OK : HttpStatusCode.BadRequest);
    }

    private async Task<JsonElement[]> ArrayAsync(string query, string body)
    {
        string text = await (await SendAsync(query, "application/json", body)).Content.ReadAsStringAsync(Cancellation);
        return [.. JsonDocument.Parse(text).RootElement.EnumerateArray()];
    }

    private async Task<HttpResponseMessage> SendAsync(string query, string type, string body)
    {
        using HttpClient program = Program();
        using StringContent content = new(body, Encoding.UTF8);
        content.Headers.ContentType = new MediaTypeHeaderValue(type);
        return await program.PostAsync(new Uri($"/api/v1/sites/{site}/convert/stream?{query}", UriKind.Relative), content, Cancellation);
    }

    private HttpClient Program()
    {
        HttpClient program = web.Browser();
        program.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", token);
        return program;
    }

    private static Task WriteAsync(NetworkStream stream, string text) => stream.WriteAsync(Encoding.ASCII.GetBytes(text), Cancellation).AsTask();

    private static Task ChunkAsync(NetworkStream stream, string text) => WriteAsync(stream, text.Length.ToString("x", CultureInfo.InvariantCulture) + "\r\n" + text + "\r\n");

    private static async Task<string> ReadUntilAsync(NetworkStream stream, Func<string, bool> enough)
    {
        StringBuilder read = new();
        byte[] piece = new byte[1 << 16];
        while (!enough(read.ToString()))
        {
            int count = await stream.ReadAsync(piece, Cancellation);
            if (count == 0) break;
            read.Append(Encoding.UTF8.GetString(piece, 0, count));
        }

        return read.ToString();
    }
}
