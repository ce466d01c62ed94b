using Npgsql;
using Shouldly;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.RecordsIn;
using SiteProgress.TestSupport;

namespace SiteProgress.Jobs.Tests.RecordsIn;

/// <summary>A site without records and the ways by which its people bring files in.</summary>
internal sealed class Intake : IAsyncDisposable
{
    private readonly TestDatabase _database;
    private readonly OpenedStore _store;

    private Intake(TestDatabase database, OpenedStore store, string code) => (_database, _store, Code) = (database, store, code);

    public string Code { get; }

    public static CancellationToken Cancellation => Xunit.TestContext.Current.CancellationToken;

    public static async Task<Intake> OpenAsync(TestDatabase database)
    {
        OpenedStore store = new(database.OwnerConnectionString);
        string code = "site-" + Guid.NewGuid().ToString("N")[..12];
        await store.OpenSiteAsync(code);
        return new Intake(database, store, code);
    }

    public T Get<T>()
        where T : notnull
        => _store.Get<T>();

    public IServiceProvider Services => _store.Get<IServiceProvider>();

    public async Task<Permit> PermitAsync(Role role)
    {
        Guid person = await _store.PersonAsync($"{Guid.NewGuid():N}@example.org", role, Code);
        return (await Get<Gate>().EnterAsync(person, Code, Cancellation)).ShouldNotBeNull();
    }

    /// <summary>A file of the folder of sample files, or of the demonstration.</summary>
    public static byte[] File(string folder, string name) => System.IO.File.ReadAllBytes(Path.Combine(Checkout.Folder, folder, name));

    public async Task<Guid> SendAsync(Permit permit, string name, byte[] bytes)
    {
        UploadResult stored = await Get<StoreUpload>().RunAsync(permit, name, new MemoryStream(bytes), Cancellation);
        return stored.Upload.ShouldNotBeNull(stored.Refusal);
    }

    public async Task<UploadPreview> LookAsync(Permit permit, Guid upload, UploadChoices? choices = null)
        => (await Get<PreviewUpload>().RunAsync(permit, upload, choices ?? UploadChoices.AsTheFileSays, Cancellation)).ShouldNotBeNull();

    public Task<RecordingResult> RecordAsync(Permit permit, Guid upload, bool leaveOutProblems = false, UploadChoices? choices = null)
        => Get<RecordUpload>().RunAsync(permit, upload, choices ?? UploadChoices.AsTheFileSays, leaveOutProblems, Cancellation);

    public async Task<long> BringInAsync(Permit permit, string name, byte[] bytes)
    {
        RecordingResult recorded = await RecordAsync(permit, await SendAsync(permit, name, bytes));
        return recorded.Batch.ShouldNotBeNull(recorded.Refusal);
    }

    /// <summary>How many records the site has.</summary>
    public Task<long> RecordsAsync()
        => OneAsync<long>("select count(*) from record.site_record r join record.site s on s.site = r.site where s.code = $1", Code);

    public async Task<T> OneAsync<T>(string sql, params object[] values)
    {
        await using NpgsqlConnection connection = new(_database.OwnerConnectionString);
        await connection.OpenAsync(Cancellation);
        await using NpgsqlCommand command = new(sql, connection);
        foreach (object value in values) command.Parameters.AddWithValue(value);
        return (T)(await command.ExecuteScalarAsync(Cancellation))!;
    }

    public ValueTask DisposeAsync() => _store.DisposeAsync();
}
