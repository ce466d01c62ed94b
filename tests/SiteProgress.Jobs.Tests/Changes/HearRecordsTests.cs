using System.Collections.Concurrent;
using Npgsql;
using Shouldly;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Changes;
using Xunit;

namespace SiteProgress.Jobs.Tests.Changes;

/// <summary>What a node hears of new records, over a real store whose connections the test cuts.</summary>
public sealed class HearRecordsTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task One_append_is_one_notice_with_site_and_sequence_alone()
    {
        await using TestSite site = await TestSite.OpenAsync(database);
        using Ear ear = new(site);
        await ear.BeginAsync();
        await site.RecordAsync(Role.Surveyor, TestSite.PlannedRow(40));
        long head = await HeadAsync(site);

        await ear.UntilAsync(head);

        ear.Heard.Count(notice => notice.Site == ear.Site).ShouldBe(2); // where it stood when listening began, and the batch of 41 records
        await ear.EndAsync();
    }

    [Fact]
    public async Task A_cut_listener_goes_on_from_the_last_sequence_it_heard()
    {
        await using TestSite site = await TestSite.OpenAsync(database);
        using Ear ear = new(site);
        await ear.BeginAsync();
        await Ear.CutAsync(database.AdministratorConnectionString);
        await Should.ThrowAsync<NpgsqlException>(() => ear.Listening);
        await site.RecordAsync(Role.Surveyor, TestSite.PlannedRow(3)); // announced while nobody listens
        long missed = await HeadAsync(site);

        await ear.BeginAsync();
        await ear.UntilAsync(missed);

        ear.Heard.Count(notice => notice.Site == ear.Site && notice.Sequence == missed).ShouldBe(1);
        await ear.EndAsync();
    }

    [Fact]
    public async Task After_a_break_in_which_nothing_was_recorded_nothing_is_told_again()
    {
        await using TestSite site = await TestSite.OpenAsync(database);
        using Ear ear = new(site);
        await ear.BeginAsync();
        int before = ear.Heard.Count;
        await ear.EndAsync();

        await ear.BeginAsync();
        await site.RecordAsync(Role.Surveyor, TestSite.PlannedRow(1));
        await ear.UntilAsync(await HeadAsync(site));

        ear.Heard.Skip(before).Count(notice => notice.Site == ear.Site).ShouldBe(1);
        await ear.EndAsync();
    }

    private static Task<long> HeadAsync(TestSite site) => site.OneAsync<long>("select t.sequence from derived.site_state t join record.site s on s.site = t.site where s.code = $1", site.Code);

    /// <summary>A node's one listening connection.</summary>
    private sealed class Ear(TestSite site) : IDisposable
    {
        private readonly ConcurrentDictionary<int, long> _last = [];
        private readonly ConcurrentQueue<RecordNotice> _heard = new();
        private readonly SemaphoreSlim _news = new(0);
        private CancellationTokenSource _end = new();

        public int Site { get; private set; }

        public IReadOnlyCollection<RecordNotice> Heard => _heard;

        public Task Listening { get; private set; } = Task.CompletedTask;

        /// <summary>Begins to listen and waits until the store knows of it.</summary>
        public async Task BeginAsync()
        {
            Site = await site.OneAsync<int>("select site from record.site where code = $1", site.Code);
            _end.Dispose();
            _end = new CancellationTokenSource();
            Listening = new HearRecords(site.Store).ListenAsync(
                _last,
                notice =>
                {
                    _heard.Enqueue(notice);
                    _news.Release();
                },
                _end.Token);
            await UntilAsync(await HeadAsync(site));
        }

        public async Task UntilAsync(long sequence)
        {
            while (!_last.TryGetValue(Site, out long known) || known < sequence) await _news.WaitAsync(Cancellation);
        }

        public void Dispose()
        {
            _end.Dispose();
            _news.Dispose();
        }

        public static async Task CutAsync(string administrator)
        {
            await using NpgsqlDataSource superuser = NpgsqlDataSource.Create(administrator);
            await using NpgsqlCommand cut = superuser.CreateCommand(
                "select count(pg_terminate_backend(pid)) from pg_stat_activity where datname = current_database() and query like 'select site, sequence from derived.site_state order by site%'");
            ((long)(await cut.ExecuteScalarAsync(Cancellation))!).ShouldBeGreaterThan(0);
        }

        public async Task EndAsync()
        {
            await _end.CancelAsync();
            await Should.ThrowAsync<OperationCanceledException>(() => Listening);
        }
    }
}
