using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using Shouldly;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Attachments;
using SiteProgress.Jobs.Demo;
using SiteProgress.Jobs.Progress;
using SiteProgress.Jobs.Recording;
using SiteProgress.Jobs.RecordsIn;
using SiteProgress.Jobs.Sites;
using SiteProgress.Jobs.Verification;
using SiteProgress.Storage;
using Xunit;

namespace SiteProgress.Jobs.Tests.Demo;

/// <summary>The whole invented site, brought in by the front door, against the figures its generator states for its files.</summary>
public sealed class DemoSite : IAsyncLifetime
{
    private readonly JobsDatabase _database = new();
    private ServiceProvider? _services;

    public IServiceProvider Services => _services!;

    public string? Refusal { get; private set; }

    public NpgsqlDataSource Owner { get; private set; } = null!;

    public Dictionary<Role, Guid> People { get; } = Enum.GetValues<Role>().ToDictionary(role => role, _ => Guid.NewGuid());

    public async ValueTask InitializeAsync()
    {
        await _database.InitializeAsync();
        Owner = StoreOptions.DataSource(_database.OwnerConnectionString);
        ServiceCollection services = new();
        services.AddSingleton(TimeProvider.System);
        services.AddSingleton(Owner);
        services.AddRecording(Directory.CreateTempSubdirectory("siteprogress-heads-").FullName);
        services.AddSites();
        services.AddRecordsIn(new IntakeLimits());
        services.AddSingleton<Gate>();
        services.AddSingleton<AttachFile>();
        services.AddDbContextFactory<SiteProgressDb>((provider, builder) => StoreOptions.Configure(builder, provider.GetRequiredService<NpgsqlDataSource>()));
        services.AddSingleton<ReadPileLog>();
        services.AddSingleton<SiteProgress.Jobs.Sand.ReadSandAccount>();
        services.AddSingleton<SiteProgress.Jobs.Treatment.ReadFreeFindings>();
        services.AddSingleton<SiteProgress.Jobs.Ground.ReadGround>();
        services.AddSingleton<LoadDemo>();
        services.AddSingleton<ReviseWorkPlan>();
        services.AddSingleton<SiteProgress.Jobs.SiteGrid.RecordObservations>();
        _services = services.BuildServiceProvider();
        Refusal = await _services.GetRequiredService<LoadDemo>().RunAsync(SeedFolder, People, _ => { }, CancellationToken.None);
    }

    public async ValueTask DisposeAsync()
    {
        GC.SuppressFinalize(this);
        await _services!.DisposeAsync();
        await _database.DisposeAsync();
    }

    public async Task<Permit> PermitAsync(Role role)
        => (await Services.GetRequiredService<Gate>().EnterAsync(People[role], "sandlark", CancellationToken.None)).ShouldNotBeNull();

    public async Task<T> OneAsync<T>(string sql)
    {
        await using NpgsqlCommand command = Owner.CreateCommand(sql);
        return (T)(await command.ExecuteScalarAsync())!;
    }

    internal static string SeedFolder
    {
        get
        {
            DirectoryInfo? folder = new(AppContext.BaseDirectory);
            while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "SiteProgress.sln"))) folder = folder.Parent;
            return Path.Combine(folder!.FullName, "seed-data");
        }
    }
}

/// <summary>Loading the whole demo takes its time: all test classes that only read it share one.</summary>
[CollectionDefinition(Name)]
public sealed class DemoCollection : ICollectionFixture<DemoSite>
{
    /// <summary>Name of the collection.</summary>
    public const string Name = "the demo";
}

[Collection(DemoCollection.Name)]
public sealed class LoadDemoTests(DemoSite demo)
{
    [Fact]
    public void Every_file_of_the_demo_is_recorded_without_a_problem() => demo.Refusal.ShouldBeNull();

    [Theory]
    [InlineData("A", 2160)]
    [InlineData("B", 2016)]
    [InlineData("C", 1845)]
    public async Task Every_planned_pile_stands_in_its_zone(string zone, long planned)
        => (await demo.OneAsync<long>($"select count(*) from derived.pile where zone = '{zone}'")).ShouldBe(planned);

    [Fact]
    public async Task Sites_derived_state_is_what_the_records_give()
    {
        SiteVerification verification = (await demo.Services.GetRequiredService<VerifySite>().RunAsync("sandlark", TestContext.Current.CancellationToken))!;

        verification.ChainBreak.ShouldBeNull();
        verification.HeadBreak.ShouldBeNull();
        verification.Tables.ShouldAllBe(table => table.Identical);
    }

    [Fact]
    public async Task Swapped_numbers_are_named_and_wait()
        => (await demo.OneAsync<string>($"select string_agg(recorded_number || '>' || nearest, ' ' order by recorded_number) from derived.installation where match = {(int)MatchOutcome.SwappedNumbers}"))
            .ShouldBe("B-0929>B-0930 B-0930>B-0929");

    [Fact]
    public async Task The_morning_in_the_wrong_frame_is_named()
        => (await demo.OneAsync<long>($"select count(*) from derived.installation where match = {(int)MatchOutcome.WrongFrame} and barge = 'Tern' and working_day = '2026-04-18'")).ShouldBe(6);

    [Fact]
    public async Task Both_repeated_records_are_kept_and_not_counted()
        => (await demo.OneAsync<long>($"select count(*) from derived.installation where match = {(int)MatchOutcome.DuplicateRecord}")).ShouldBe(2);

    [Fact]
    public async Task The_three_missed_piles_are_outstanding()
        => (await demo.OneAsync<long>($"select count(*) from derived.pile where state = {(int)PileState.Outstanding} and number in ('A-0518', 'A-1175', 'A-1665')")).ShouldBe(3);

    [Fact]
    public async Task Piles_short_of_sand_are_findings()
        // Ten by their record; one that has enough in all and too little in one place, by its log.
        => (await demo.OneAsync<long>("select count(*) from derived.pile where findings like '%Sand%'")).ShouldBe(11);

    [Fact]
    public async Task Trial_piles_stand_outside_the_design()
        => (await demo.OneAsync<long>($"select count(*) from derived.installation where match = {(int)MatchOutcome.Trial}")).ShouldBe(6);
}
