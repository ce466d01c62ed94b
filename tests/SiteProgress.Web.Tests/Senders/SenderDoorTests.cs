using System.Net;
using System.Net.Http.Headers;
using System.Net.Sockets;
using System.Text;
using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using Shouldly;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Accounts;
using SiteProgress.Jobs.Senders;
using Xunit;

namespace SiteProgress.Web.Tests.Senders;

/// <summary>The way in for machines, over the real server and store: who is let in, how much, how often, and what they are told.</summary>
public sealed class SenderDoorTests(WebDatabase database) : IClassFixture<WebDatabase>, IAsyncLifetime
{
    private readonly string site = "site-" + Guid.NewGuid().ToString("N")[..12];
    private RunningWeb web = null!;
    private string key = "";

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private string Address => $"/api/v1/sites/{site}/sent/installations";

    public async ValueTask InitializeAsync()
    {
        web = await RunningWeb.StartAsync(database, "--Senders:LargestRequestBytes=20000", "--Senders:WrongKeysPerMinute=5", "--Senders:RequestsPerMinute=12");
        await web.OpenSiteAsync(site);
        key = (await MakeKeyAsync()).ShouldNotBeNull();
    }

    public ValueTask DisposeAsync() => web.DisposeAsync();

    [Fact]
    public async Task A_logger_sends_JSON_and_is_told_what_became_of_each_row_and_nothing_else()
    {
        HttpResponseMessage answer = await SendAsync($"[{One("T-1")},{One("T-2", "Nobody")}]");

        answer.StatusCode.ShouldBe(HttpStatusCode.OK);
        JsonElement told = JsonDocument.Parse(await answer.Content.ReadAsStringAsync(Cancellation)).RootElement;
        told.GetProperty("recorded").GetInt32().ShouldBe(1);
        told.GetProperty("rows")[0].GetProperty("became").GetString().ShouldBe("recorded");
        told.GetProperty("rows")[1].GetProperty("became").GetString().ShouldBe("notTaken");
        told.GetProperty("problems")[0].GetProperty("column").GetString().ShouldBe("Barge");
        told.GetProperty("problems")[0].GetProperty("expected").GetString().ShouldBe("a barge of this site: Tern");
        told.ToString().ShouldNotContain("Plover"); // a barge of the site that is none of this sender's
    }

    [Fact]
    public async Task The_same_table_that_people_send_is_taken_too()
        => (await SendAsync("Record,Pile No,Barge,Outcome\nT-1,A-0001,Tern,complete\n", "text/csv")).StatusCode.ShouldBe(HttpStatusCode.OK);

    [Fact]
    public async Task A_log_of_JSON_is_taken_at_its_own_address_and_what_is_wrong_is_named_by_index()
    {
        const string Log = """{"record":"T-9","barge":"Tern","casing":1,"firstSample":"2026-03-10T07:00:00Z","seconds":[0,2,4],"casingTipLevel":[-12.4,-12.8,-13.3],"sandAboveTip":[14,14,null]}""";
        string logs = Address.Replace("installations", "logs", StringComparison.Ordinal);

        JsonElement told = JsonDocument.Parse(await (await SendAsync(Log, address: logs)).Content.ReadAsStringAsync(Cancellation)).RootElement;
        told.GetProperty("rows")[0].GetProperty("became").GetString().ShouldBe("recorded");

        told = JsonDocument.Parse(await (await SendAsync(Log.Replace("T-9", "T-8", StringComparison.Ordinal).Replace("-12.8", "null,-12.8", StringComparison.Ordinal), address: logs)).Content.ReadAsStringAsync(Cancellation)).RootElement;
        told.GetProperty("problems")[0].GetProperty("expected").GetString().ShouldBe("3 values, one for each sample; there are 4");
        using HttpClient program = Machine("");
        (await program.GetStringAsync(new Uri("/openapi/v1.json", UriKind.Relative), Cancellation)).ShouldContain("casingTipBelowWater");
    }

    [Fact]
    public async Task JSON_with_a_byte_order_mark_is_taken()
        => (await SendAsync("\uFEFF" + One("T-1"))).StatusCode.ShouldBe(HttpStatusCode.OK);

    [Fact]
    public async Task What_cannot_be_read_is_422_with_its_problems()
    {
        HttpResponseMessage answer = await SendAsync("{\"record\":");

        answer.StatusCode.ShouldBe(HttpStatusCode.UnprocessableEntity);
        (await answer.Content.ReadAsStringAsync(Cancellation)).ShouldContain("it breaks off or is malformed at line 1");
    }

    [Fact]
    public async Task Without_a_key_with_a_persons_token_and_with_a_key_of_another_site_the_answer_is_the_same_401()
    {
        Guid person = await web.PersonAsync($"{Guid.NewGuid():N}@example.org");
        await web.GrantAsync(site, person, Role.ProjectManager);
        string token = await web.Services.GetRequiredService<PersonalTokens>().MakeAsync(person, "program", Cancellation);
        List<string> bodies = [];
        foreach ((string? sent, string address) in new[] { (null, Address), (token, Address), (key, "/api/v1/sites/another/sent/installations") })
        {
            HttpResponseMessage answer = await SendAsync(One("T-1"), key: sent ?? "", address: address);
            answer.StatusCode.ShouldBe(HttpStatusCode.Unauthorized);
            bodies.Add(JsonDocument.Parse(await answer.Content.ReadAsStringAsync(Cancellation)).RootElement.GetProperty("detail").GetString()!);
        }

        bodies.Distinct().ShouldBe(["The key is missing, unknown, withdrawn or of another site."]);
    }

    [Theory]
    [InlineData("piles")]
    [InlineData("batches")]
    [InlineData("senders")]
    public async Task A_key_reads_nothing(string what)
    {
        using HttpClient machine = Machine(key);

        (await machine.GetAsync(new Uri($"/api/v1/sites/{site}/{what}", UriKind.Relative), Cancellation)).StatusCode.ShouldBe(HttpStatusCode.Unauthorized);
        (await machine.GetAsync(new Uri(Address, UriKind.Relative), Cancellation)).StatusCode.ShouldBeOneOf(HttpStatusCode.Unauthorized, HttpStatusCode.MethodNotAllowed);
    }

    [Fact]
    public async Task A_withdrawn_key_is_refused_at_the_next_request()
    {
        (await SendAsync(One("T-1"))).StatusCode.ShouldBe(HttpStatusCode.OK);
        SenderPermit entered = (await web.Services.GetRequiredService<SenderGate>().EnterAsync(site, key, Cancellation)).ShouldNotBeNull();
        await web.Services.GetRequiredService<SenderKeys>().WithdrawAsync(await AdministratorAsync(), entered.Key, "stolen", Cancellation);

        (await SendAsync(One("T-2"))).StatusCode.ShouldBe(HttpStatusCode.Unauthorized);
        (await InstalledAsync()).ShouldBe(1);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Too_much_is_413_whether_its_length_is_said_or_not(bool said)
    {
        string large = "[" + string.Join(',', Enumerable.Range(0, 200).Select(index => One($"T-{index}"))) + "]";
        using HttpClient machine = Machine(key);
        using HttpRequestMessage request = new(HttpMethod.Post, Address) { Content = new StringContent(large, Encoding.UTF8, "application/json") };
        if (!said) request.Headers.TransferEncodingChunked = true;

        HttpResponseMessage answer = await machine.SendAsync(request, Cancellation);

        answer.StatusCode.ShouldBe(HttpStatusCode.RequestEntityTooLarge);
        (await InstalledAsync()).ShouldBe(0);
    }

    [Fact]
    public async Task Other_kinds_and_packed_ones_are_415()
    {
        (await SendAsync("<a/>", "application/xml")).StatusCode.ShouldBe(HttpStatusCode.UnsupportedMediaType);
        using HttpClient machine = Machine(key);
        using ByteArrayContent packed = new([1, 2, 3]);
        packed.Headers.ContentType = new MediaTypeHeaderValue("application/json");
        packed.Headers.ContentEncoding.Add("gzip");
        (await machine.PostAsync(new Uri(Address, UriKind.Relative), packed, Cancellation)).StatusCode.ShouldBe(HttpStatusCode.UnsupportedMediaType);
    }

    [Fact]
    public async Task Guessing_keys_from_one_address_ends_in_429_and_so_does_sending_without_pause()
    {
        for (int sent = 0; sent < 12; sent++) (await SendAsync(One("T-1"))).StatusCode.ShouldBe(HttpStatusCode.OK);
        HttpResponseMessage often = await SendAsync(One("T-1"));
        often.StatusCode.ShouldBe(HttpStatusCode.TooManyRequests);
        often.Headers.RetryAfter.ShouldNotBeNull();

        for (int guess = 0; guess < 5; guess++) (await SendAsync(One("T-1"), key: $"sps_{guess}")).StatusCode.ShouldBe(HttpStatusCode.Unauthorized);
        (await SendAsync(One("T-1"), key: "sps_x")).StatusCode.ShouldBe(HttpStatusCode.TooManyRequests);
    }

    [Fact]
    public async Task A_right_key_is_let_in_however_many_wrong_ones_came_from_its_address()
    {
        for (int guess = 0; guess < 6; guess++) await SendAsync(One("T-1"), key: $"sps_{guess}");
        (await SendAsync(One("T-1"), key: "sps_x")).StatusCode.ShouldBe(HttpStatusCode.TooManyRequests);

        (await SendAsync(One("T-1"))).StatusCode.ShouldBe(HttpStatusCode.OK);
    }

    [Fact]
    public async Task A_sender_that_breaks_off_records_nothing_and_the_next_is_served()
    {
        using (TcpClient link = new())
        {
            await link.ConnectAsync(web.Address.Host, web.Address.Port, Cancellation);
            string head = $"POST {Address} HTTP/1.1\r\nHost: {web.Address.Authority}\r\nAuthorization: Bearer {key}\r\nContent-Type: application/json\r\nContent-Length: 900\r\n\r\n";
            await link.GetStream().WriteAsync(Encoding.ASCII.GetBytes(head + One("T-1")[..60]), Cancellation);
        }

        (await SendAsync(One("T-2"))).StatusCode.ShouldBe(HttpStatusCode.OK);
        (await InstalledAsync()).ShouldBe(1);
    }

    [Fact]
    public async Task An_answer_that_never_arrived_is_made_up_for_by_sending_again()
    {
        using (TcpClient link = new())
        {
            await link.ConnectAsync(web.Address.Host, web.Address.Port, Cancellation);
            byte[] body = Encoding.UTF8.GetBytes(One("T-1"));
            string head = $"POST {Address} HTTP/1.1\r\nHost: {web.Address.Authority}\r\nAuthorization: Bearer {key}\r\nContent-Type: application/json\r\nContent-Length: {body.Length}\r\n\r\n";
            await link.GetStream().WriteAsync(Encoding.ASCII.GetBytes(head), Cancellation);
            await link.GetStream().WriteAsync(body, Cancellation);

            // The link goes before the answer is read.
            link.Client.Shutdown(SocketShutdown.Both);
        }

        HttpResponseMessage again = await SendAsync(One("T-1"));

        again.StatusCode.ShouldBe(HttpStatusCode.OK);
        JsonElement told = JsonDocument.Parse(await again.Content.ReadAsStringAsync(Cancellation)).RootElement;
        (told.GetProperty("recorded").GetInt32() + told.GetProperty("alreadyRecorded").GetInt32()).ShouldBe(1);
        (await InstalledAsync()).ShouldBe(1);
    }

    [Fact]
    public async Task Rows_not_taken_show_on_the_page_and_on_their_batch_with_hostile_text_as_text()
    {
        await SendAsync($"[{One("T-1")},{One("T-2", "<img src=x onerror=alert(1)>")}]");
        using HttpClient person = await PersonAsync(Role.Surveyor);

        string page = await person.GetStringAsync(new Uri($"/sites/{site}/senders", UriKind.Relative), Cancellation);
        page.ShouldContain("Not taken (1)");
        page.ShouldContain("&lt;img src=x onerror=alert(1)&gt;");
        page.ShouldNotContain("<img src=x");
        page.ShouldNotContain(key);
        string batch = await person.GetStringAsync(new Uri($"/sites/{site}/records-in/{await LastBatchAsync()}", UriKind.Relative), Cancellation);
        batch.ShouldContain("Rows not taken (1)");
        batch.ShouldContain("Tern logger (sender)");
        (await person.GetStringAsync(new Uri($"/sites/{site}/senders/not-taken.csv", UriKind.Relative), Cancellation)).ShouldContain("Barge");
    }

    private static string One(string record, string barge = "Tern")
        => $$"""{"record":"{{record}}","pileNo":"A-0001","barge":"{{barge}}","casing":1,"outcome":"complete","xEnd":1000.01,"yEnd":2000.02,"fix":"RTK fixed"}""";

    private async Task<HttpResponseMessage> SendAsync(string body, string type = "application/json", string? key = null, string? address = null)
    {
        using HttpClient machine = Machine(key ?? this.key);
        using StringContent content = new(body, Encoding.UTF8, type);
        return await machine.PostAsync(new Uri(address ?? Address, UriKind.Relative), content, Cancellation);
    }

    private HttpClient Machine(string with)
    {
        HttpClient machine = new() { BaseAddress = web.Address };
        if (with.Length > 0) machine.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", with);
        return machine;
    }

    private async Task<Permit> AdministratorAsync()
    {
        Guid person = await web.PersonAsync($"{Guid.NewGuid():N}@example.org");
        await web.GrantAsync(site, person, Role.Administrator);
        return (await web.Services.GetRequiredService<Gate>().EnterAsync(person, site, Cancellation)).ShouldNotBeNull();
    }

    private async Task<string?> MakeKeyAsync()
        => (await web.Services.GetRequiredService<SenderKeys>().MakeAsync(await AdministratorAsync(), "Tern logger", ["Tern"], Cancellation)).Text;

    private async Task<HttpClient> PersonAsync(Role role)
    {
        string email = $"{Guid.NewGuid():N}@example.org";
        await web.GrantAsync(site, await web.PersonAsync(email), role);
        HttpClient browser = web.Browser();
        (await RunningWeb.SignInAsync(browser, email)).StatusCode.ShouldBe(HttpStatusCode.Redirect);
        return browser;
    }

    private Task<long> InstalledAsync() => OneAsync("select count(*) from derived.installation i join record.site s on s.site = i.site where s.code = $1");

    private Task<long> LastBatchAsync() => OneAsync("select max(batch) from derived.batch b join record.site s on s.site = b.site where s.code = $1");

    private async Task<long> OneAsync(string sql)
    {
        await using NpgsqlConnection connection = new(database.OwnerConnectionString);
        await connection.OpenAsync(Cancellation);
        await using NpgsqlCommand command = new(sql, connection) { Parameters = { new() { Value = site } } };
        return (long)(await command.ExecuteScalarAsync(Cancellation))!;
    }
}
