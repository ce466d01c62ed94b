using System.Text;
using Npgsql;
using Shouldly;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Senders;
using SiteProgress.TestSupport;

namespace SiteProgress.Jobs.Tests.Senders;

/// <summary>A site with a design and a sender of Tern's, and ways to send as that sender.</summary>
internal sealed class SentSite : IAsyncDisposable
{
    private readonly OpenedStore _store;
    private readonly string _owner;

    private SentSite(OpenedStore store, string owner, string code) => (_store, _owner, Code) = (store, owner, code);

    public string Code { get; }

    public string Key { get; private set; } = "";

    private static CancellationToken Cancellation => Xunit.TestContext.Current.CancellationToken;

    public static async Task<SentSite> OpenAsync(TestDatabase database, TimeProvider? time = null)
    {
        SentSite site = new(new OpenedStore(database.OwnerConnectionString, time ?? new SettableTime()), database.OwnerConnectionString, "site-" + Guid.NewGuid().ToString("N")[..12]);
        await site._store.OpenSiteAsync(site.Code);
        site.Key = (await site.MakeKeyAsync("Tern logger", "Tern")).ShouldNotBeNull();
        return site;
    }

    public T Get<T>()
        where T : notnull
        => _store.Get<T>();

    public async Task<Permit> PermitAsync(Role role)
    {
        Guid person = await _store.PersonAsync($"{Guid.NewGuid():N}@example.org", role, Code);
        return (await Get<Gate>().EnterAsync(person, Code, Cancellation)).ShouldNotBeNull();
    }

    public async Task<string?> MakeKeyAsync(string sender, params string[] barges)
        => (await Get<SenderKeys>().MakeAsync(await PermitAsync(Role.Administrator), sender, barges, Cancellation)).Text;

    public async Task<SenderPermit?> EnterAsync(string? key = null) => await Get<SenderGate>().EnterAsync(Code, key ?? Key, Cancellation);

    public async Task<SentAnswer> SendAsync(string text, SentForm form = SentForm.Json, string? key = null)
        => await Get<TakeInstallations>().RunAsync((await EnterAsync(key)).ShouldNotBeNull(), form, "sent.json", Encoding.UTF8.GetBytes(text), Cancellation);

    /// <summary>One installation as a logger writes it, on the demonstration site's grid.</summary>
    public static string Json(string record, string pile = "A-0001", string barge = "Tern", double tip = -28.10, int minute = 0)
        => FormattableString.Invariant($$"""
            {"record":"{{record}}","pileNo":"{{pile}}","barge":"{{barge}}","casing":1,"start":"2026-03-10T08:{{minute:00}}:00+01:00","endPenetration":"2026-03-10T09:10:00+01:00","end":"2026-03-10T09:40:00+01:00",
             "xEnd":1000.02,"yEnd":2000.01,"headingGrid":33,"topLevel":-12.45,"tipLevel":{{tip}},"sandInCasing":63.7,"inclination":0.4,"fix":"RTK fixed","uncertainty":0.04,"outcome":"complete"}
            """);

    public static string List(params string[] installations) => "[" + string.Join(',', installations) + "]";

    public Task<long> CountAsync(string kind) => OneAsync<long>(
        "select count(*) from record.site_record r join record.site s on s.site = r.site where s.code = $1 and r.kind = $2", Code, (short)Enum.Parse<Core.Records.RecordKind>(kind));

    public async Task<T> OneAsync<T>(string sql, params object[] values)
    {
        await using NpgsqlConnection connection = new(_owner);
        await connection.OpenAsync(Cancellation);
        await using NpgsqlCommand command = new(sql, connection);
        foreach (object value in values) command.Parameters.AddWithValue(value);
        return (T)(await command.ExecuteScalarAsync(Cancellation))!;
    }

    public ValueTask DisposeAsync() => _store.DisposeAsync();
}
