using Shouldly;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Senders;
using Xunit;

namespace SiteProgress.Jobs.Tests.Senders;

/// <summary>A folder in which a logger leaves files, over the real store; the clock stands until the test moves it.</summary>
public sealed class TakeFromFolderTests(JobsDatabase database) : IClassFixture<JobsDatabase>, IAsyncLifetime
{
    private readonly SettableTime _time = new();
    private readonly SeenFiles _seen = new();
    private readonly string _path = Directory.CreateTempSubdirectory("siteprogress-watched-").FullName;
    private SentSite _site = null!;

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync() => _site = await SentSite.OpenAsync(database, _time);

    public async ValueTask DisposeAsync()
    {
        await _site.DisposeAsync();
        Directory.Delete(_path, recursive: true);
    }

    [Fact]
    public async Task A_file_is_taken_once_it_has_lain_unchanged_and_is_moved()
    {
        Leave("pile.json", SentSite.Json("T-1"));

        (await LookAsync()).ShouldBeEmpty();
        _time.Now += TimeSpan.FromSeconds(9);
        (await LookAsync()).ShouldBeEmpty();
        _time.Now += TimeSpan.FromSeconds(2);
        (await LookAsync()).ShouldBe(["pile.json"]);

        Names("taken").ShouldBe(["pile.json"]);
        Names("").ShouldBeEmpty();
        (await _site.CountAsync(nameof(RecordKind.PileInstalled))).ShouldBe(1);
    }

    [Fact]
    public async Task A_file_that_still_grows_waits_and_one_that_says_it_is_unfinished_too()
    {
        Leave("pile.json", SentSite.Json("T-1")[..40]);
        Leave("other.csv.part", "Record");
        Leave(".hidden.csv", "Record");
        await LookAsync();
        _time.Now += TimeSpan.FromSeconds(20);
        Leave("pile.json", SentSite.Json("T-1"));

        (await LookAsync()).ShouldBeEmpty();
        _time.Now += TimeSpan.FromSeconds(20);
        (await LookAsync()).ShouldBe(["pile.json"]);
        Names("").ShouldBe([".hidden.csv", "other.csv.part"], ignoreOrder: true);
        (await _site.CountAsync(nameof(RecordKind.PileInstalled))).ShouldBe(1);
    }

    [Fact]
    public async Task What_cannot_be_read_goes_to_failed_with_a_sentence_and_bad_rows_are_told_beside_the_taken_file()
    {
        Leave("broken.json", "{\"record\":");
        Leave("half.json", SentSite.List(SentSite.Json("T-1"), SentSite.Json("T-2", "A-0002", "Nobody")));
        await SettleAsync();

        Names("failed").ShouldBe(["broken.json", "broken.json.txt"], ignoreOrder: true);
        Text("failed/broken.json.txt").ShouldContain("The file: expected JSON; it breaks off");
        Names("taken").ShouldBe(["half.json", "half.json.txt"], ignoreOrder: true);
        Text("taken/half.json.txt").ShouldContain("1 recorded");
        Text("taken/half.json.txt").ShouldContain("Row 2, column Barge: found \"Nobody\"");
    }

    [Fact]
    public async Task A_file_taken_twice_after_a_crash_records_nothing_twice()
    {
        Leave("pile.json", SentSite.Json("T-1"));
        await SettleAsync();
        Leave("pile.json", SentSite.Json("T-1"));
        await SettleAsync();

        (await _site.CountAsync(nameof(RecordKind.PileInstalled))).ShouldBe(1);
        Names("taken").ShouldBe(["pile.json", "pile-2.json"], ignoreOrder: true);
    }

    [Fact]
    public async Task Without_a_working_key_the_files_stay_and_a_file_says_why()
    {
        SenderPermit entered = (await _site.EnterAsync()).ShouldNotBeNull();
        await _site.Get<SenderKeys>().WithdrawAsync(await _site.PermitAsync(Role.Administrator), entered.Key, "replaced", Cancellation);
        Leave("pile.json", SentSite.Json("T-1"));
        await SettleAsync();

        Text("why-nothing-is-taken.txt").ShouldContain("no key of the sender 'Tern logger' works");
        (await _site.MakeKeyAsync("Tern logger", "Tern")).ShouldNotBeNull();
        (await LookAsync()).ShouldBe(["pile.json"]);
        Names("").ShouldBeEmpty();
    }

    [Fact]
    public async Task A_link_to_another_place_is_left_alone()
    {
        string secret = Path.Combine(Path.GetTempPath(), Guid.NewGuid().ToString("N"));
        await File.WriteAllTextAsync(secret, SentSite.Json("T-1"), Cancellation);
        File.CreateSymbolicLink(Path.Combine(_path, "pile.json"), secret);
        await SettleAsync();

        Names("taken").ShouldBeEmpty();
        File.Delete(secret);
    }

    private async Task SettleAsync()
    {
        await LookAsync();
        _time.Now += TimeSpan.FromSeconds(11);
        await LookAsync();
    }

    private Task<IReadOnlyList<string>> LookAsync()
        => _site.Get<TakeFromFolder>().LookAsync(new WatchedFolder { Site = _site.Code, Sender = "Tern logger", Path = _path }, _seen, Cancellation);

    private void Leave(string name, string text) => File.WriteAllText(Path.Combine(_path, name), text);

    private string Text(string name) => File.ReadAllText(Path.Combine(_path, name));

    private string[] Names(string folder) => [.. new DirectoryInfo(Path.Combine(_path, folder)).EnumerateFiles().Select(file => file.Name)];
}
