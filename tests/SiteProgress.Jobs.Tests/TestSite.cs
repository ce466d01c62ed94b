using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using Npgsql;
using Shouldly;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;
using SiteProgress.Jobs.Sites;
using SiteProgress.Storage;
using SiteProgress.TestSupport;

namespace SiteProgress.Jobs.Tests;

/// <summary>One invented site in a real store, with a person in each role. Each test makes its own.</summary>
public sealed class TestSite : IAsyncDisposable
{
    private readonly ServiceProvider _services;
    private readonly NpgsqlDataSource _owner;

    private TestSite(ServiceProvider services, NpgsqlDataSource owner, string code)
    {
        _services = services;
        _owner = owner;
        Code = code;
    }

    public string Code { get; }

    public IServiceProvider Services => _services;

    public NpgsqlDataSource Store => _services.GetRequiredService<NpgsqlDataSource>();

    public Dictionary<Role, Guid> People { get; } = [];

    public string HeadFolder { get; private init; } = "";

    public static async Task<TestSite> OpenAsync(TestDatabase database, Action<IServiceCollection>? more = null)
    {
        string folder = Directory.CreateTempSubdirectory("siteprogress-heads-").FullName;
        ServiceCollection services = new();
        services.AddSingleton(TimeProvider.System);
        services.AddSingleton(StoreOptions.DataSource(database.WebConnectionString));
        services.AddRecording(folder);
        services.AddSites();
        services.AddSingleton<Gate>();
        more?.Invoke(services);
        ServiceProvider provider = services.BuildServiceProvider();
        NpgsqlDataSource owner = StoreOptions.DataSource(database.OwnerConnectionString);
        TestSite site = new(provider, owner, "site-" + Guid.NewGuid().ToString("N")[..12]) { HeadFolder = folder };
        SiteRecorder recorder = ActivatorUtilities.CreateInstance<SiteRecorder>(provider, owner);
        OpenSite open = ActivatorUtilities.CreateInstance<OpenSite>(provider, owner, recorder);
        OpenSiteResult opened = await open.RunAsync(
            JsonSerializer.Serialize(Settings(site.Code), RecordJson.Options), null, Marks, CancellationToken.None);
        opened.Refusal.ShouldBeNull();
        GrantRole grant = provider.GetRequiredService<GrantRole>();
        foreach (Role role in Enum.GetValues<Role>())
        {
            Guid person = Guid.NewGuid();
            site.People[role] = person;
            (await grant.RunAsOperatorAsync(site.Code, person, role, CancellationToken.None)).ShouldBeNull();
        }

        return site;
    }

    public async Task<Permit> PermitAsync(Role role)
        => (await _services.GetRequiredService<Gate>().EnterAsync(People[role], Code, CancellationToken.None)).ShouldNotBeNull();

    public async Task<T> OneAsync<T>(string sql, params object[] values)
    {
        await using NpgsqlCommand command = _owner.CreateCommand(sql);
        foreach (object value in values) command.Parameters.AddWithValue(value);
        return (T)(await command.ExecuteScalarAsync())!;
    }

    public async Task<Permit> RecordAsync(Role role, IReadOnlyList<RecordBody> bodies)
    {
        Permit permit = await PermitAsync(role);
        await _services.GetRequiredService<SiteRecorder>().AppendAsync(permit, Right.BringIn, _ => bodies, CancellationToken.None);
        return permit;
    }

    public static IReadOnlyList<RecordBody> PlannedRow(int count) =>
    [
        Batch(BatchContent.PlannedPiles, count, "plan"),
        .. Enumerable.Range(0, count).Select(index => new PilePlannedBody(
            index + 2, new AsPlanned(Number(index), "A", new RecordedPosition(Frame.SiteGrid, index * 2.1, 0), null, null, null, null, null))),
    ];

    public static IReadOnlyList<RecordBody> BuiltRow(int count, string sender = "built") =>
    [
        Batch(BatchContent.Installations, count, sender),
        .. Enumerable.Range(0, count).Select(index => new PileInstalledBody(index + 2, Built(index, sender))),
    ];

    public static Installation Built(int index, string sender = "built")
    {
        Instant start = Instant.FromUtc(2026, 3, 10, 6, 0) + Duration.FromMinutes(40 * index);
        RecordedPosition position = new(Frame.SiteGrid, (index * 2.1) + 0.04, 0.03);
        return new Installation(
            $"{sender}-{index}", Number(index), "Tern", 1, "S1", start, start + Duration.FromMinutes(10), start + Duration.FromMinutes(35),
            position, position, 33, North.CrsGrid, -12.4, -30.5, 71.5, 0.3, null, FixType.RtkFixed, 0.03, Outcome.Complete, null);
    }

    public static string Number(int index) => $"A-{index + 1:0000}";

    public async ValueTask DisposeAsync()
    {
        await _services.DisposeAsync();
        await _owner.DisposeAsync();
        Directory.Delete(HeadFolder, recursive: true);
    }

    public static BatchBody Batch(BatchContent content, int rows, string name) => new(
        Guid.NewGuid(), name + ".csv", Guid.NewGuid().ToString("N") + Guid.NewGuid().ToString("N"), content, 1, rows, rows, [], []);

    public static readonly ControlPoint[] Marks =
    [
        new("M1", new SiteCoordinate(0, 0), new ProjectedCoordinate(390000, 6161000), 0.005),
        new("M2", new SiteCoordinate(1000, 0), new ProjectedCoordinate(391000, 6161000), 0.005),
        new("M3", new SiteCoordinate(0, 1000), new ProjectedCoordinate(390000, 6162000), 0.005),
    ];

    public static SiteSettings Settings(string code) => new(
        code, "Invented test site", true, "Europe/Copenhagen", new LocalTime(6, 0),
        [new Shift("day", new LocalTime(6, 0)), new Shift("night", new LocalTime(18, 0))],
        25832, new LevelDatum("SLD", "Invented datum"), new GridAxes("X", "Y"), "A-Z0-9-", 0.03,
        [new SandSource("Pit 1", 0.8, new LocalDate(2026, 2, 1), "Trial 1")],
        [
            new Zone(
                "A", "Zone A", Pattern.Square, 2.1, null, 2.0, -12.4, -30.5, TipRule.Level, null, null, 0.7124, 3.1416, "Pit 1",
                new Limits(0.150, 0.300, 0.0, 0.05, 0.57, "Approval 1", "Clause 4.2"), 0.100,
                [CheckName.Position, CheckName.Top, CheckName.Tip, CheckName.Sand], []),
        ],
        [new Barge("Tern", [new Casing(1, 1.2, 1.25, 20, 0)], null)]);
}
