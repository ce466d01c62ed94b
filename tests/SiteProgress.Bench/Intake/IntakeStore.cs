using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using Npgsql;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;
using SiteProgress.Jobs.RecordsIn;
using SiteProgress.Jobs.Sites;
using SiteProgress.Storage;
using SiteProgress.TestSupport;

namespace SiteProgress.Bench.Intake;

/// <summary>A store with one site and its planned piles, copied afresh for every turn, and the jobs over it.</summary>
internal sealed class IntakeStore : IAsyncDisposable
{
    private const string SiteCode = "bench-site";
    private readonly ServiceProvider _services;
    private readonly string _database;
    private readonly Guid _surveyor;

    private IntakeStore(string database, Guid surveyor)
    {
        (_database, _surveyor) = (database, surveyor);
        ServiceCollection services = new();
        services.AddSingleton(TimeProvider.System);
        services.AddSingleton(_ => StoreOptions.DataSource(TestCluster.ConnectionString(database, TestCluster.OwnerAccount)));
        services.AddRecording(Directory.CreateTempSubdirectory("siteprogress-bench-").FullName);
        services.AddSites();
        services.AddRecordsIn(new IntakeLimits());
        services.AddSingleton<Gate>();
        _services = services.BuildServiceProvider();
    }

    public NpgsqlDataSource Store => _services.GetRequiredService<NpgsqlDataSource>();

    /// <summary>Makes the database that every turn is copied from.</summary>
    public static async Task<(string Database, Guid Surveyor)> PrepareAsync(int piles)
    {
        string database = "bench_" + Guid.NewGuid().ToString("N");
        await CommandAsync("postgres", $"create database {database} owner {TestCluster.OwnerAccount}");
        await CommandAsync(database, "create extension postgis");
        await StoreMigration.RunAsync(
            TestCluster.ConnectionString(database, TestCluster.OwnerAccount), TestCluster.ConnectionString(database, TestCluster.WebAccount), CancellationToken.None);
        Guid surveyor = Guid.NewGuid();
        IntakeStore store = new(database, surveyor);
        await store._services.GetRequiredService<OpenSite>().RunAsync(JsonSerializer.Serialize(Settings(), RecordJson.Options), null, Marks, CancellationToken.None);
        await store._services.GetRequiredService<GrantRole>().RunAsOperatorAsync(SiteCode, surveyor, Role.Surveyor, CancellationToken.None);
        await store.BringInAsync("planned.csv", IntakeFiles.Planned(piles));
        await store.VacuumAsync();
        await store.DisposeAsync();
        // Nobody may be connected to a database that is copied, the server's own vacuum neither.
        await CommandAsync("postgres", $"alter database {database} with allow_connections false");
        await CommandAsync("postgres", $"select pg_terminate_backend(pid) from pg_stat_activity where datname = '{database}'");
        return (database, surveyor);
    }

    /// <summary>A fresh copy of the prepared database.</summary>
    public static async Task<IntakeStore> CopyAsync((string Database, Guid Surveyor) prepared)
    {
        NpgsqlConnection.ClearAllPools();
        string database = "turn_" + Guid.NewGuid().ToString("N");
        await CommandAsync("postgres", $"create database {database} template {prepared.Database} owner {TestCluster.OwnerAccount}");
        return new IntakeStore(database, prepared.Surveyor);
    }

    /// <summary>One file from its bytes to committed, judged and visible.</summary>
    public async Task BringInAsync(string name, byte[] file)
    {
        Permit permit = (await _services.GetRequiredService<Gate>().EnterAsync(_surveyor, SiteCode, CancellationToken.None))!;
        UploadResult upload = await _services.GetRequiredService<StoreUpload>().RunAsync(permit, name, new MemoryStream(file), CancellationToken.None);
        RecordingResult recorded = await _services.GetRequiredService<RecordUpload>()
            .RunAsync(permit, upload.Upload!.Value, UploadChoices.AsTheFileSays, leaveOutProblems: false, CancellationToken.None);
        if (recorded.Refusal is { } refusal) throw new InvalidOperationException(refusal);
    }

    public async Task DropAsync()
    {
        await DisposeAsync();
        NpgsqlConnection.ClearAllPools();
        await CommandAsync("postgres", $"drop database {_database} with (force)");
    }

    public ValueTask DisposeAsync() => _services.DisposeAsync();

    public static async Task CommandAsync(string database, string statement)
    {
        await using NpgsqlConnection connection = new(new NpgsqlConnectionStringBuilder(TestCluster.ConnectionString(database)) { Pooling = false, CommandTimeout = 600 }.ConnectionString);
        await connection.OpenAsync();
        await using NpgsqlCommand command = new(statement, connection);
        await command.ExecuteNonQueryAsync();
    }

    private async Task VacuumAsync()
    {
        await using NpgsqlCommand command = Store.CreateCommand("vacuum analyze");
        await command.ExecuteNonQueryAsync();
    }

    private static readonly ControlPoint[] Marks =
    [
        new("M1", new SiteCoordinate(0, 0), new ProjectedCoordinate(390000, 6161000), 0.005),
        new("M2", new SiteCoordinate(1000, 0), new ProjectedCoordinate(390999.7, 6161000), 0.005),
        new("M3", new SiteCoordinate(0, 1000), new ProjectedCoordinate(390000, 6161999.7), 0.005),
    ];

    private static SiteSettings Settings() => new(
        SiteCode, "Invented bench site", true, "Europe/Copenhagen", new LocalTime(6, 0),
        [new Shift("day", new LocalTime(6, 0)), new Shift("night", new LocalTime(18, 0))],
        25832, new LevelDatum("SLD", "Invented datum"), new GridAxes("X", "Y"), "A-Z0-9-", 0.03,
        [new SandSource("Pit 1", 0.8, new LocalDate(2026, 2, 1), "Trial 1")],
        [
            new Zone(
                "A", "Zone A", Pattern.Square, 2.1, null, 2.0, -12.4, -30.5, TipRule.Level, null, null, 0.7124, 3.1416, "Pit 1",
                new Limits(0.150, 0.300, 0.2, 0.05, 0.57, "Approval 1", "Clause 4.2"), 0.100,
                [CheckName.Position, CheckName.Top, CheckName.Tip, CheckName.Sand], []),
        ],
        [new Barge("Tern", [new Casing(1, 1.2, 1.25, 20, -2.1), new Casing(2, 1.2, 1.25, 20, 0), new Casing(3, 1.2, 1.25, 20, 2.1)], null)]);
}
