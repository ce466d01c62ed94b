using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using Shouldly;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Accounts;
using SiteProgress.TestSupport;
using Xunit;

namespace SiteProgress.Web.Tests.RecordsIn;

/// <summary>Files on their way in as a browser and as a program send them, over the real server and store.</summary>
public sealed partial class RecordsInDoorTests(WebDatabase database) : IClassFixture<WebDatabase>, IAsyncLifetime
{
    private const string Plan = "Pile No,Zone,X [m],Y [m]\nA-1,A,1000.0,2000.0\nA-2,A,1002.1,2000.0\n";

    private readonly string site = "site-" + Guid.NewGuid().ToString("N")[..12];
    private RunningWeb web = null!;

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private string List => $"/sites/{site}/records-in";

    public async ValueTask InitializeAsync()
    {
        web = await RunningWeb.StartAsync(database, "--SiteProgress:SignInAttemptsPerMinute=1000", "--Intake:LargestFileBytes=2000000");
        await web.OpenSiteAsync(site);
    }

    public ValueTask DisposeAsync() => web.DisposeAsync();

    [Fact]
    public async Task A_file_is_chosen_looked_at_and_recorded()
    {
        using HttpClient manager = await PersonAsync(Role.ProjectManager);
        string preview = await SendAsync(manager, "plan.csv", Encoding.UTF8.GetBytes(Plan));
        string page = await manager.GetStringAsync(new Uri(preview, UriKind.Relative), Cancellation);
        page.ShouldContain("nothing is recorded yet");
        page.ShouldContain("Record 2 rows");
        (await RecordsOfBatchesAsync()).ShouldBe(0);

        HttpResponseMessage recorded = await RunningWeb.SendFormAsync(manager, preview, preview + "/record", "");
        string batch = recorded.Headers.Location!.ToString();
        batch.ShouldMatch($"^{List}/[0-9]+\\?recorded=yes$");
        (await RecordsOfBatchesAsync()).ShouldBe(3);
        (await manager.GetStringAsync(new Uri(batch, UriKind.Relative), Cancellation)).ShouldContain("2 piles of the design in force come from here");
        (await manager.GetStringAsync(new Uri(List, UriKind.Relative), Cancellation)).ShouldContain("plan.csv");
    }

    [Theory]
    [InlineData("02-binary.csv", "this is not text at all")]
    [InlineData("03-wrong-delimiter.csv", "parted by comma, semicolon or tab")]
    [InlineData("04-missing-column.csv", "the header on line 1 has none")]
    [InlineData("09-swapped-axes.csv", "first and second coordinate are swapped")]
    [InlineData("16-nan.csv", "NaN")]
    [InlineData("18-formula-in-a-pile-number.csv", "this begins like a spreadsheet formula")]
    [InlineData("19-html-in-a-pile-number.csv", "&lt;img src=x onerror=alert(1)&gt;")]
    [InlineData("20-line-cut-in-half.csv", "seems to be cut off")]
    public async Task A_bad_file_is_told_on_the_page_and_changes_nothing(string name, string said)
    {
        using HttpClient manager = await PersonAsync(Role.ProjectManager);
        string preview = await SendAsync(manager, name, await File.ReadAllBytesAsync(Path.Combine(Checkout.Folder, "tests/sample-files/bad", name), Cancellation));

        HttpResponseMessage looked = await manager.GetAsync(new Uri(preview, UriKind.Relative), Cancellation);
        looked.StatusCode.ShouldBe(HttpStatusCode.OK);
        string page = await looked.Content.ReadAsStringAsync(Cancellation);
        page.ShouldContain(said);
        page.ShouldNotContain("<img");
        (await manager.GetAsync(new Uri(preview + "/problems.csv", UriKind.Relative), Cancellation)).StatusCode.ShouldBe(HttpStatusCode.OK);
        (await RecordsOfBatchesAsync()).ShouldBe(0);
        if (name.StartsWith("09", StringComparison.Ordinal)) return;

        HttpResponseMessage unasked = await RunningWeb.SendFormAsync(manager, preview, preview + "/record", "");
        unasked.Headers.Location!.ToString().ShouldEndWith("recorded=no");
        (await manager.GetStringAsync(new Uri(unasked.Headers.Location.ToString(), UriKind.Relative), Cancellation)).ShouldContain("Nothing was recorded.");
        (await RecordsOfBatchesAsync()).ShouldBe(0);
    }

    [Fact]
    public async Task The_good_rows_are_recorded_without_the_others_only_when_the_person_says_so()
    {
        using HttpClient manager = await PersonAsync(Role.ProjectManager);
        string preview = await SendAsync(manager, "plan.csv", Encoding.UTF8.GetBytes(Plan + "A-3,Q,1,2\n"));
        (await manager.GetStringAsync(new Uri(preview, UriKind.Relative), Cancellation)).ShouldContain("Record the 2 good rows without the 1 lines listed below");

        HttpResponseMessage recorded = await RunningWeb.SendFormAsync(manager, preview, preview + "/record", "", ("leaveOut", "yes"));

        recorded.Headers.Location!.ToString().ShouldEndWith("recorded=yes");
        (await RecordsOfBatchesAsync()).ShouldBe(3);
    }

    [Theory]
    [InlineData(0, "Empty", "it has no bytes at all")]
    [InlineData(2_000_001, "TooLong", "The file is longer than 1.9 MB")]
    public async Task A_file_without_bytes_or_with_too_many_is_refused_with_a_sentence(int length, string why, string said)
    {
        using HttpClient manager = await PersonAsync(Role.ProjectManager);

        HttpResponseMessage answer = await PostFileAsync(manager, "file.csv", new byte[length]);

        answer.Headers.Location!.ToString().ShouldBe($"{List}?refused={why}");
        (await manager.GetStringAsync(new Uri(answer.Headers.Location.ToString(), UriKind.Relative), Cancellation)).ShouldContain(said);
        (await CountAsync("select count(*) from record.upload_chunk c join record.site s on s.site = c.site where s.code = $1")).ShouldBe(0);
    }

    [Fact]
    public async Task A_200_megabyte_file_gets_its_sentence_and_leaves_nothing()
    {
        using HttpClient manager = await PersonAsync(Role.ProjectManager);
        using MultipartFormDataContent form = new();
        using StringContent token = new(await TokenAsync(manager));
        using RepeatedContent bytes = new(Encoding.UTF8.GetBytes("A-1,A,1,2\n"), 200_000_000);
        bytes.Headers.ContentType = new MediaTypeHeaderValue("text/csv");
        form.Add(token, "__RequestVerificationToken");
        form.Add(bytes, "file", "200-megabytes.csv");

        // The server reads a little on, then answers; a sender that is still sending may find the link closed instead.
        string? location = null;
        try
        {
            location = (await manager.PostAsync(new Uri(List + "/send", UriKind.Relative), form, Cancellation)).Headers.Location?.ToString();
        }
        catch (HttpRequestException)
        {
            // Told apart below: nothing was kept either way, and the server goes on.
        }

        (location ?? $"{List}?refused=TooLong").ShouldBe($"{List}?refused=TooLong");
        (await CountAsync("select count(*) from record.upload_chunk c join record.site s on s.site = c.site where s.code = $1")).ShouldBe(0);
        (await manager.GetAsync(new Uri(List, UriKind.Relative), Cancellation)).StatusCode.ShouldBe(HttpStatusCode.OK);
    }

    [Fact]
    public async Task A_form_without_a_file_and_a_body_that_is_no_form_are_told_apart()
    {
        using HttpClient manager = await PersonAsync(Role.ProjectManager);
        using MultipartFormDataContent none = new();
        using StringContent token = new(await TokenAsync(manager));
        none.Add(token, "__RequestVerificationToken");
        (await manager.PostAsync(new Uri(List + "/send", UriKind.Relative), none, Cancellation)).Headers.Location!.ToString().ShouldEndWith("refused=NoFile");

        using StringContent text = new("a,b,c", Encoding.UTF8, "text/csv");
        (await manager.PostAsync(new Uri(List + "/send", UriKind.Relative), text, Cancellation)).Headers.Location!.ToString().ShouldEndWith("refused=BrokenOff");

        using ByteArrayContent torn = new(Encoding.UTF8.GetBytes("--x\r\nContent-Disposition: form-data; name=\"file\"; filename=\"a.csv\"\r\n\r\nA"));
        torn.Headers.ContentType = MediaTypeHeaderValue.Parse("multipart/form-data; boundary=x");
        torn.Headers.Add("RequestVerificationToken", await TokenAsync(manager));
        (await manager.PostAsync(new Uri(List + "/send", UriKind.Relative), torn, Cancellation)).Headers.Location!.ToString().ShouldEndWith("refused=BrokenOff");
        (await CountAsync("select count(*) from record.upload u join record.site s on s.site = u.site where s.code = $1")).ShouldBe(0);
    }

    [Fact]
    public async Task A_form_that_is_not_from_this_page_is_refused()
    {
        using HttpClient manager = await PersonAsync(Role.ProjectManager);
        using MultipartFormDataContent forged = new();
        using ByteArrayContent bytes = new(Encoding.UTF8.GetBytes(Plan));
        forged.Add(bytes, "file", "plan.csv");

        (await manager.PostAsync(new Uri(List + "/send", UriKind.Relative), forged, Cancellation)).StatusCode.ShouldBe(HttpStatusCode.BadRequest);

        string preview = await SendAsync(manager, "plan.csv", Encoding.UTF8.GetBytes(Plan));
        using FormUrlEncodedContent record = new([KeyValuePair.Create("leaveOut", "yes")]);
        (await manager.PostAsync(new Uri(preview + "/record", UriKind.Relative), record, Cancellation)).StatusCode.ShouldBe(HttpStatusCode.BadRequest);
        (await RecordsOfBatchesAsync()).ShouldBe(0);
    }

    [Theory]
    [InlineData(Role.OwnersRepresentative)]
    [InlineData(Role.Administrator)]
    public async Task Who_may_not_bring_in_sees_the_batches_and_is_refused_whatever_they_send(Role role)
    {
        using HttpClient manager = await PersonAsync(Role.ProjectManager);
        string preview = await SendAsync(manager, "plan.csv", Encoding.UTF8.GetBytes(Plan));
        string batch = (await RunningWeb.SendFormAsync(manager, preview, preview + "/record", "")).Headers.Location!.ToString().Split('?')[0];
        using HttpClient other = await PersonAsync(role);

        string list = await other.GetStringAsync(new Uri(List, UriKind.Relative), Cancellation);
        list.ShouldContain("plan.csv");
        list.ShouldNotContain("type=\"file\"");
        (await other.GetStringAsync(new Uri(batch + "?withdraw=yes", UriKind.Relative), Cancellation)).ShouldNotContain("Withdraw this batch");
        (await other.GetAsync(new Uri(preview, UriKind.Relative), Cancellation)).StatusCode.ShouldBe(HttpStatusCode.Forbidden);

        (await PostFileAsync(other, "plan.csv", Encoding.UTF8.GetBytes(Plan))).StatusCode.ShouldBe(HttpStatusCode.Forbidden);
        (await RunningWeb.SendFormAsync(other, "/account", preview + "/record", "")).StatusCode.ShouldBe(HttpStatusCode.Forbidden);
        (await RunningWeb.SendFormAsync(other, "/account", batch + "/withdraw", "", ("reason", "because"))).StatusCode.ShouldBe(HttpStatusCode.Forbidden);
        (await RecordsOfBatchesAsync()).ShouldBe(3);
        (await CountAsync("select count(*) from derived.batch b join record.site s on s.site = b.site where s.code = $1 and b.withdrawn_at is null")).ShouldBe(1);
    }

    [Fact]
    public async Task A_site_one_has_no_role_on_has_no_records_in()
    {
        string email = $"{Guid.NewGuid():N}@example.org";
        await web.PersonAsync(email);
        using HttpClient stranger = web.Browser();
        await RunningWeb.SignInAsync(stranger, email);

        foreach (string path in new[] { List, List + ".csv", List + "/1", List + "/1/file", List + "/1/rows.csv", $"{List}/{Guid.NewGuid()}" })
            (await stranger.GetAsync(new Uri(path, UriKind.Relative), Cancellation)).StatusCode.ShouldBe(HttpStatusCode.NotFound, path);
        (await PostFileAsync(stranger, "plan.csv", Encoding.UTF8.GetBytes(Plan))).StatusCode.ShouldBe(HttpStatusCode.NotFound);
    }

    [Fact]
    public async Task The_file_of_a_batch_is_a_download_that_no_browser_runs()
    {
        using HttpClient manager = await PersonAsync(Role.ProjectManager);
        string preview = await SendAsync(manager, "plan <script>.html", Encoding.UTF8.GetBytes(Plan));
        string batch = (await RunningWeb.SendFormAsync(manager, preview, preview + "/record", "")).Headers.Location!.ToString().Split('?')[0];

        HttpResponseMessage raw = await manager.GetAsync(new Uri(batch + "/file", UriKind.Relative), Cancellation);

        (await raw.Content.ReadAsStringAsync(Cancellation)).ShouldBe(Plan);
        raw.Content.Headers.ContentType!.MediaType.ShouldBe("application/octet-stream");
        raw.Content.Headers.ContentDisposition!.DispositionType.ShouldBe("attachment");
        raw.Headers.GetValues("X-Content-Type-Options").ShouldBe(["nosniff"]);
        (await manager.GetStringAsync(new Uri(batch + "/rows.csv", UriKind.Relative), Cancellation)).ShouldContain("2,A-1,A,site-grid,1000.000,2000.000");
    }

    [Fact]
    public async Task A_program_brings_a_file_in_by_token_and_reads_it_back()
    {
        using HttpClient program = await ProgramAsync(Role.Surveyor);
        using StringContent bytes = new(Plan, Encoding.UTF8, "text/csv");
        HttpResponseMessage created = await program.PostAsync(new Uri($"/api/v1/sites/{site}/batches?fileName=plan.csv", UriKind.Relative), bytes, Cancellation);

        created.StatusCode.ShouldBe(HttpStatusCode.Created);
        JsonElement batch = await created.Content.ReadFromJsonAsync<JsonElement>(Cancellation);
        (batch.GetProperty("fileName").GetString(), batch.GetProperty("rowsRecorded").GetInt32(), batch.GetProperty("content").GetString()).ShouldBe(("plan.csv", 2, "planned-piles"));
        JsonElement read = await program.GetFromJsonAsync<JsonElement>(created.Headers.Location, Cancellation);
        read.GetProperty("rows").EnumerateArray().Select(row => row.GetProperty("pileNumber").GetString()).ShouldBe(["A-1", "A-2"]);

        using StringContent again = new(Plan, Encoding.UTF8, "text/csv");
        HttpResponseMessage twice = await program.PostAsync(new Uri($"/api/v1/sites/{site}/batches", UriKind.Relative), again, Cancellation);
        twice.StatusCode.ShouldBe(HttpStatusCode.Conflict);
        (await program.GetFromJsonAsync<JsonElement>(new Uri($"/api/v1/sites/{site}/batches", UriKind.Relative), Cancellation)).GetArrayLength().ShouldBe(1);
    }

    [Fact]
    public async Task A_program_is_told_the_problems_by_line_and_may_leave_them_out()
    {
        using HttpClient program = await ProgramAsync(Role.Surveyor);
        using MultipartFormDataContent form = Form(Plan + "A-3,Q,1,2\n");
        HttpResponseMessage told = await program.PostAsync(new Uri($"/api/v1/sites/{site}/batches", UriKind.Relative), form, Cancellation);

        told.StatusCode.ShouldBe(HttpStatusCode.UnprocessableEntity);
        told.Content.Headers.ContentType!.MediaType.ShouldBe("application/problem+json");
        JsonElement problem = (await told.Content.ReadFromJsonAsync<JsonElement>(Cancellation)).GetProperty("problems").EnumerateArray().Single();
        (problem.GetProperty("line").GetInt64(), problem.GetProperty("column").GetString(), problem.GetProperty("found").GetString()).ShouldBe((4, "Zone", "Q"));
        (await RecordsOfBatchesAsync()).ShouldBe(0);

        using MultipartFormDataContent again = Form(Plan + "A-3,Q,1,2\n");
        (await program.PostAsync(new Uri($"/api/v1/sites/{site}/batches?leaveOutProblems=true", UriKind.Relative), again, Cancellation)).StatusCode.ShouldBe(HttpStatusCode.Created);
        (await RecordsOfBatchesAsync()).ShouldBe(3);
    }

    [Fact]
    public async Task A_program_whose_person_may_not_bring_in_is_refused_before_its_file_is_kept()
    {
        using HttpClient program = await ProgramAsync(Role.OwnersRepresentative);
        using StringContent bytes = new(Plan, Encoding.UTF8, "text/csv");

        (await program.PostAsync(new Uri($"/api/v1/sites/{site}/batches", UriKind.Relative), bytes, Cancellation)).StatusCode.ShouldBe(HttpStatusCode.Forbidden);
        (await CountAsync("select count(*) from record.upload u join record.site s on s.site = u.site where s.code = $1")).ShouldBe(0);
    }

    private static MultipartFormDataContent Form(string text) => new() { { new ByteArrayContent(Encoding.UTF8.GetBytes(text)), "file", "plan.csv" } };

    private async Task<HttpClient> PersonAsync(Role role)
    {
        string email = $"{Guid.NewGuid():N}@example.org";
        await web.GrantAsync(site, await web.PersonAsync(email), role);
        HttpClient browser = web.Browser();
        await RunningWeb.SignInAsync(browser, email);
        return browser;
    }

    private async Task<HttpClient> ProgramAsync(Role role)
    {
        Guid person = await web.PersonAsync($"{Guid.NewGuid():N}@example.org");
        await web.GrantAsync(site, person, role);
        HttpClient program = web.Browser();
        program.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", await web.Services.GetRequiredService<PersonalTokens>().MakeAsync(person, "test", Cancellation));
        return program;
    }

    /// <summary>Sends a file as the page's form does.</summary>
    /// <returns>The address of its preview.</returns>
    private async Task<string> SendAsync(HttpClient browser, string name, byte[] bytes)
    {
        HttpResponseMessage sent = await PostFileAsync(browser, name, bytes);
        string preview = sent.Headers.Location.ShouldNotBeNull().ToString();
        preview.ShouldMatch($"^{List}/[0-9a-f-]{{36}}$");
        return preview;
    }

    private async Task<HttpResponseMessage> PostFileAsync(HttpClient browser, string name, byte[] bytes)
    {
        using MultipartFormDataContent form = new();
        using StringContent token = new(await TokenAsync(browser));
        using ByteArrayContent file = new(bytes);
        form.Add(token, "__RequestVerificationToken");
        form.Add(file, "file", name);
        return await browser.PostAsync(new Uri(List + "/send", UriKind.Relative), form, Cancellation);
    }

    private static async Task<string> TokenAsync(HttpClient browser)
        => FormToken().Match(await browser.GetStringAsync(new Uri("/account", UriKind.Relative), Cancellation)).Groups[1].Value;

    private Task<long> RecordsOfBatchesAsync()
        => CountAsync("select count(*) from record.site_record r join record.site s on s.site = r.site where s.code = $1 and (r.batch is not null or r.kind = 10)");

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

    /// <summary>A body of any length that is made as it is sent.</summary>
    private sealed class RepeatedContent(byte[] line, long length) : HttpContent
    {
        protected override async Task SerializeToStreamAsync(Stream stream, TransportContext? context)
        {
            byte[] piece = [.. Enumerable.Repeat(line, 6000).SelectMany(one => one)];
            for (long sent = 0; sent < length; sent += piece.Length) await stream.WriteAsync(piece.AsMemory(0, (int)Math.Min(piece.Length, length - sent)), Cancellation);
        }

        protected override bool TryComputeLength(out long computed)
        {
            computed = length;
            return true;
        }
    }
}
