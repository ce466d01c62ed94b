using System.IO.Compression;
using System.Net;
using System.Net.Sockets;
using System.Text;
using System.Text.RegularExpressions;
using Npgsql;
using Shouldly;
using SiteProgress.Jobs.Access;
using Xunit;

namespace SiteProgress.Web.Tests.RecordsIn;

/// <summary>Files made to break a server, sent to the real one: each is answered, none is an error of the server, none keeps others waiting.</summary>
public sealed partial class HostileDoorTests(WebDatabase database) : IClassFixture<WebDatabase>, IAsyncLifetime
{
    private const string Plan = "Pile No,Zone,X [m],Y [m]\nA-1,A,1000.0,2000.0\nA-2,A,1002.1,2000.0\n";

    private static readonly string[] Kinds = ["zip bomb.xlsx", "cut off.xlsx", "deep.geojson", "loop.dxf", "entities.xml", "half.gpkg", "../../../etc/passwd", "<img src=x>.csv"];

    private readonly string site = "site-" + Guid.NewGuid().ToString("N")[..12];
    private RunningWeb web = null!;

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private string List => $"/sites/{site}/records-in";

    public async ValueTask InitializeAsync()
    {
        // A grace of just over the second at which the server looks at its connections, and a rate no slow sender keeps.
        web = await RunningWeb.StartAsync(database, "--SiteProgress:SignInAttemptsPerMinute=1000", "--Intake:GraceSeconds=1.1", "--Intake:LeastBytesPerSecond=100000");
        await web.OpenSiteAsync(site);
    }

    public ValueTask DisposeAsync() => web.DisposeAsync();

    [Fact]
    public async Task A_hostile_file_gets_a_page_that_says_why_and_records_nothing()
    {
        using HttpClient manager = await PersonAsync();
        foreach (string name in Kinds)
        {
            HttpResponseMessage sent = await SendAsync(manager, name, Hostile(name));
            HttpResponseMessage looked = await manager.GetAsync(sent.Headers.Location, Cancellation);

            looked.StatusCode.ShouldBe(HttpStatusCode.OK, name);
            string page = await looked.Content.ReadAsStringAsync(Cancellation);
            page.ShouldContain("The file holds nothing that can be recorded", customMessage: name);
            page.ShouldNotContain("Exception", customMessage: name);
            page.ShouldNotContain("<img", customMessage: name);
            page.ShouldNotContain("../..", customMessage: name);
        }

        (await RecordsAsync()).ShouldBe(0);
    }

    [Fact]
    public async Task A_sender_of_a_byte_now_and_then_is_let_go_while_others_go_on()
    {
        CookieContainer jar = new();
        using HttpClient manager = await PersonAsync(new HttpClient(new HttpClientHandler { CookieContainer = jar, AllowAutoRedirect = false }) { BaseAddress = web.Address });
        using TcpClient slow = new();
        await slow.ConnectAsync(IPAddress.Loopback, web.Address.Port, Cancellation);
        await using NetworkStream link = slow.GetStream();
        string cookies = jar.GetCookieHeader(web.Address);
        string head = $"POST {List}/send HTTP/1.1\r\nHost: 127.0.0.1\r\nCookie: {cookies}\r\nContent-Type: multipart/form-data; boundary=x\r\nContent-Length: 1000000\r\n\r\n"
            + $"--x\r\nContent-Disposition: form-data; name=\"__RequestVerificationToken\"\r\n\r\n{await TokenAsync(manager)}\r\n--x\r\nContent-Disposition: form-data; name=\"file\"; filename=\"slow.csv\"\r\n\r\nP";
        await link.WriteAsync(Encoding.ASCII.GetBytes(head), Cancellation);

        // Meanwhile another file goes its whole way.
        HttpResponseMessage sent = await SendAsync(manager, "plan.csv", Encoding.UTF8.GetBytes(Plan));
        (await manager.GetStringAsync(sent.Headers.Location, Cancellation)).ShouldContain("Record 2 rows");

        // The slow one never sends more; the server ends it, so that reading comes to an end by itself.
        using StreamReader answer = new(link, Encoding.ASCII);
        string all = await ReadToEndAsync(answer);
        all.ShouldNotContain("HTTP/1.1 500");
        (await CountAsync("select count(*) from record.upload u join record.site s on s.site = u.site where s.code = $1 and u.file_name = 'slow.csv'")).ShouldBe(0);
    }

    [Fact]
    public async Task What_was_said_of_a_file_is_kept_with_the_batch_and_taken_up_for_the_next_one_of_its_shape()
    {
        using HttpClient manager = await PersonAsync();
        string first = (await SendAsync(manager, "one.csv", Encoding.UTF8.GetBytes("Mark,X [m],Y [m]\nA-1,1000.0,2000.0\n"))).Headers.Location!.ToString();
        (await manager.GetStringAsync(new Uri(first, UriKind.Relative), Cancellation)).ShouldNotContain("Record 1 row");
        string said = first + "?content=planned-piles&header=1&c0=pileno&v.zone=A";
        string page = await manager.GetStringAsync(new Uri(said, UriKind.Relative), Cancellation);
        page.ShouldContain("Record 1 row");
        page.ShouldContain("in all rows, as chosen.");
        HttpResponseMessage recorded = await RunningWeb.SendFormAsync(manager, said, first + "/record", "", ("content", "planned-piles"), ("header", "1"), ("c0", "pileno"), ("v.zone", "A"));
        recorded.Headers.Location!.ToString().ShouldEndWith("recorded=yes");

        string second = (await SendAsync(manager, "two.csv", Encoding.UTF8.GetBytes("schedule 2\nMark,X [m],Y [m]\nA-2,1002.1,2000.0\n"))).Headers.Location!.ToString();
        string taken = await manager.GetStringAsync(new Uri(second, UriKind.Relative), Cancellation);
        taken.ShouldContain("Record 1 row");
        taken.ShouldContain("Read with the choices of");
        (await manager.GetStringAsync(new Uri(second + "?remembered=no", UriKind.Relative), Cancellation)).ShouldNotContain("Record 1 row");

        using HttpClient other = await PersonAsync();
        string theirs = (await SendAsync(other, "three.csv", Encoding.UTF8.GetBytes("Mark,X [m],Y [m]\nA-3,1004.2,2000.0\n"))).Headers.Location!.ToString();
        (await other.GetStringAsync(new Uri(theirs, UriKind.Relative), Cancellation)).ShouldNotContain("Read with the choices of");
    }

    private static byte[] Hostile(string name) => name switch
    {
        "zip bomb.xlsx" => Workbook(new string(' ', 40 << 20)),
        "cut off.xlsx" => Workbook("")[..^30],
        "deep.geojson" => Encoding.UTF8.GetBytes("{\"type\":\"FeatureCollection\",\"features\":[{\"properties\":" + new string('[', 100_000)),
        "loop.dxf" => Encoding.ASCII.GetBytes(string.Join("\n", "0", "SECTION", "2", "BLOCKS", "0", "BLOCK", "2", "A", "0", "INSERT", "2", "A", "0", "ENDBLK", "0", "ENDSEC",
            "0", "SECTION", "2", "ENTITIES", "0", "INSERT", "2", "A", "0", "ENDSEC", "0", "EOF", "")),
        "entities.xml" => Encoding.UTF8.GetBytes("<!DOCTYPE x [<!ENTITY a \"aaaa\">]><LandXML><CgPoints><CgPoint name=\"&a;\">1 2</CgPoint></CgPoints></LandXML>"),
        "half.gpkg" => [.. "SQLite format 3\0"u8, .. new byte[3_000]],
        _ => Encoding.UTF8.GetBytes("no,header,here\n1,2,3\n"),
    };

    private static byte[] Workbook(string blanks)
    {
        using MemoryStream bytes = new();
        using (ZipArchive zip = new(bytes, ZipArchiveMode.Create, leaveOpen: true))
        {
            using Stream entry = zip.CreateEntry("xl/workbook.xml").Open();
            entry.Write(Encoding.UTF8.GetBytes($"<workbook>{blanks}<sheets/></workbook>"));
        }

        return bytes.ToArray();
    }

    private static async Task<string> ReadToEndAsync(StreamReader answer)
    {
        try
        {
            return await answer.ReadToEndAsync(Cancellation);
        }
        catch (IOException)
        {
            // The server may close the link without a word.
            return "";
        }
    }

    private async Task<HttpClient> PersonAsync(HttpClient? with = null)
    {
        string email = $"{Guid.NewGuid():N}@example.org";
        await web.GrantAsync(site, await web.PersonAsync(email), Role.ProjectManager);
        HttpClient browser = with ?? web.Browser();
        await RunningWeb.SignInAsync(browser, email);
        return browser;
    }

    private async Task<HttpResponseMessage> SendAsync(HttpClient browser, string name, byte[] bytes)
    {
        using MultipartFormDataContent form = new();
        using StringContent token = new(await TokenAsync(browser));
        using ByteArrayContent file = new(bytes);
        form.Add(token, "__RequestVerificationToken");
        form.Add(file, "file", name);
        HttpResponseMessage sent = await browser.PostAsync(new Uri(List + "/send", UriKind.Relative), form, Cancellation);
        sent.Headers.Location.ShouldNotBeNull().ToString().ShouldMatch($"^{List}/[0-9a-f-]{{36}}$");
        return sent;
    }

    private static async Task<string> TokenAsync(HttpClient browser)
        => FormToken().Match(await browser.GetStringAsync(new Uri("/account", UriKind.Relative), Cancellation)).Groups[1].Value;

    private Task<long> RecordsAsync() => CountAsync("select count(*) from record.site_record r join record.site s on s.site = r.site where s.code = $1 and r.kind = 10");

    private async Task<long> CountAsync(string sql)
    {
        await using NpgsqlConnection connection = new(database.OwnerConnectionString);
        await connection.OpenAsync(Cancellation);
        await using NpgsqlCommand command = new(sql, connection);
        command.Parameters.AddWithValue(site);
        return (long)(await command.ExecuteScalarAsync(Cancellation))!;
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"([^\"]+)\"")]
    private static partial Regex FormToken();
}
