using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using Npgsql;
using SiteProgress.Bench.Intake;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.DemoGenerator.BiasStudy;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Deviations;
using SiteProgress.Jobs.Recording;
using SiteProgress.Jobs.RecordsIn;
using SiteProgress.Jobs.Sites;
using SiteProgress.Storage;
using SiteProgress.TestSupport;

namespace SiteProgress.Bench.Deviations;

/// <summary>A site of 100,800 installations beside the demonstration, in a real store behind the published application.</summary>
internal sealed class LargeSite : IAsyncDisposable
{
    public const string Code = "bench-site";
    public const string Surveyor = "surveyor@sandlark.invalid";
    public const string Password = "nine-geese-over-the-mole";
    private const int Days = 200, SetUpsPerDay = 56, PilesInARow = 400;
    private const double SpacingMetres = 2.1;
    private readonly MigrationTarget _target;
    private readonly string _folder;
    private readonly string _database;

    private LargeSite(string database, string folder)
    {
        (_database, _folder) = (database, folder);
        _target = new(TestCluster.ConnectionString(database, TestCluster.OwnerAccount), TestCluster.ConnectionString(database, TestCluster.WebAccount));
    }

    public PublishedWeb Web { get; private set; } = null!;

    /// <summary>Publishes the application, fills a store and serves it.</summary>
    public static async Task<LargeSite> ServeAsync()
    {
        CommandResult published = await Command.RunAsync("bash", ["-c", "eval \"$(scripts/publish.sh)\"; printf %s \"$SITEPROGRESS_WEB_PUBLISHED\""], folder: Checkout.Folder);
        Environment.SetEnvironmentVariable("SITEPROGRESS_WEB_PUBLISHED", published.Output.Trim());
        string database = "large_" + Guid.NewGuid().ToString("N");
        await IntakeStore.CommandAsync("postgres", $"create database {database} owner {TestCluster.OwnerAccount}");
        await IntakeStore.CommandAsync(database, "create extension postgis");
        LargeSite site = new(database, Directory.CreateTempSubdirectory("siteprogress-large-").FullName);
        await PublishedWeb.MigrateAsync(site._target);
        await PublishedWeb.RunAsync(site._target, ["load-demo", Path.Combine(Checkout.Folder, "seed-data")], site.Settings);
        await site.FillAsync();
        site.Web = await PublishedWeb.StartAsync(site._target, site.Settings);
        return site;
    }

    /// <summary>Times one reading of each job behind the page, in this process.</summary>
    public async Task<IReadOnlyList<(string Job, double Milliseconds)>> JobsAsync()
    {
        await using NpgsqlDataSource store = StoreOptions.DataSource(_target.WebConnectionString);
        Permit permit = (await new Gate(store).EnterAsync(await PersonAsync(store), Code, CancellationToken.None))!;
        ReviewDeviations review = new(store);
        ListDeviations list = new(store);
        ReviewBias bias = new(store);
        (string, Func<Task>)[] jobs =
        [
            ("read, review", () => review.RunAsync(permit, DeviationSelection.All, CancellationToken.None)),
            ("search for bias", () => bias.RunAsync(permit, CancellationToken.None)),
            ("review again", () => review.RunAsync(permit, DeviationSelection.All, CancellationToken.None)),
            ("review of a casing", () => review.RunAsync(permit, new DeviationSelection(Barge: "Tern", Casing: 3), CancellationToken.None)),
            ("list", () => list.RunAsync(permit, new(DeviationSelection.All, Take: 50), CancellationToken.None)),
            ("list again", () => list.RunAsync(permit, new(DeviationSelection.All, Take: 50), CancellationToken.None)),
            ("bias again", () => bias.RunAsync(permit, CancellationToken.None)),
        ];
        List<(string, double)> times = [];
        foreach ((string name, Func<Task> job) in jobs)
        {
            long begin = Stopwatch.GetTimestamp();
            await job();
            times.Add((name, Stopwatch.GetElapsedTime(begin).TotalMilliseconds));
        }

        return times;
    }

    public async ValueTask DisposeAsync()
    {
        await Web.DisposeAsync();
        NpgsqlConnection.ClearAllPools();
        await IntakeStore.CommandAsync("postgres", $"drop database {_database} with (force)");
        Directory.Delete(_folder, recursive: true);
    }

    private Dictionary<string, string> Settings => new()
    {
        ["SiteProgress__DataFolder"] = _folder, ["SiteProgress__PrivateCluster"] = "true", ["SITEPROGRESS_DEMO_PASSWORD"] = Password,
    };

    private async Task FillAsync()
    {
        ServiceCollection services = new();
        services.AddSingleton(TimeProvider.System);
        services.AddSingleton(_ => StoreOptions.DataSource(_target.OwnerConnectionString));
        services.AddRecording(_folder);
        services.AddSites();
        services.AddRecordsIn(new IntakeLimits());
        services.AddSingleton<Gate>();
        await using ServiceProvider jobs = services.BuildServiceProvider();
        await jobs.GetRequiredService<OpenSite>().RunAsync(JsonSerializer.Serialize(SiteSettings(), RecordJson.Options), null, Marks, CancellationToken.None);
        Guid person = await PersonAsync(jobs.GetRequiredService<NpgsqlDataSource>());
        await jobs.GetRequiredService<GrantRole>().RunAsOperatorAsync(Code, person, Role.Surveyor, CancellationToken.None);
        IReadOnlyList<StudyPile> piles = StudySite.Make(ErrorFamily.HeavyTailedWithDrift, 1, Days, new PlantedBias(1, 3, 0.16, -0.12, 60, 67), SetUpsPerDay);
        await BringInAsync(jobs, person, "planned.csv", Planned(piles));
        await BringInAsync(jobs, person, "built.csv", Built(piles));
        await IntakeStore.CommandAsync(_database, "vacuum analyze");
    }

    private static async Task<Guid> PersonAsync(NpgsqlDataSource store)
    {
        await using NpgsqlCommand command = store.CreateCommand("select id from account.account where email = $1");
        command.Parameters.AddWithValue(Surveyor);
        return (Guid)(await command.ExecuteScalarAsync())!;
    }

    private static async Task BringInAsync(ServiceProvider jobs, Guid person, string name, byte[] file)
    {
        Permit permit = (await jobs.GetRequiredService<Gate>().EnterAsync(person, Code, CancellationToken.None))!;
        UploadResult upload = await jobs.GetRequiredService<StoreUpload>().RunAsync(permit, name, new MemoryStream(file), CancellationToken.None);
        RecordingResult recorded = await jobs.GetRequiredService<RecordUpload>()
            .RunAsync(permit, upload.Upload!.Value, UploadChoices.AsTheFileSays, leaveOutProblems: false, CancellationToken.None);
        if (recorded.Refusal is { } refusal) throw new InvalidOperationException(refusal);
    }

    private static byte[] Planned(IReadOnlyList<StudyPile> piles)
    {
        StringBuilder text = new("Pile No,Zone,X [m],Y [m],Diameter [m],Top level [m],Tip level [m]\n");
        for (int index = 0; index < piles.Count; index++)
        {
            (double x, double y) = Place(index);
            text.Append(CultureInfo.InvariantCulture, $"{piles[index].Number},A,{x:0.000},{y:0.000},2.000,-12.40,-30.50\n");
        }

        return Encoding.UTF8.GetBytes(text.ToString());
    }

    private static byte[] Built(IReadOnlyList<StudyPile> piles)
    {
        StringBuilder text = new(
            "Record,Pile No,Barge,Casing,Set-up,Start,End penetration,End,X touch-down [m],Y touch-down [m],X end [m],Y end [m],"
            + "Heading grid [deg],Top level [m],Tip level [m],Sand in casing [m3],Inclination [deg],Fix,Uncertainty [m],Outcome,Remark\n");
        DateTime first = new(2025, 9, 1, 0, 0, 0, DateTimeKind.Unspecified);
        for (int index = 0; index < piles.Count; index++)
        {
            StudyPile pile = piles[index];
            (double x, double y) = Place(index);
            // The grid of this site lies along the CRS grid, so dE and dN are also what is along and across.
            string at = string.Create(CultureInfo.InvariantCulture, $"{x + pile.DeviationEast:0.000},{y + pile.DeviationNorth:0.000}");
            DateTime end = first.AddDays(pile.Day).AddMinutes(pile.Minute);
            text.Append(CultureInfo.InvariantCulture,
                $"R-{index + 1:000000},{pile.Number},{pile.Barge},{pile.Casing},{pile.SetUp},{end.AddMinutes(-38):yyyy-MM-dd HH:mm:ss},{end.AddMinutes(-26):yyyy-MM-dd HH:mm:ss},{end:yyyy-MM-dd HH:mm:ss},"
                + $"{at},{at},{(pile.Heading + 360) % 360:0.00},-12.40,-30.60,72.0,0.30,RTK fixed,0.030,complete,\n");
        }

        return Encoding.UTF8.GetBytes(text.ToString());
    }

    private static (double X, double Y) Place(int index) => (index % PilesInARow * SpacingMetres, index / PilesInARow * SpacingMetres);

    private static readonly ControlPoint[] Marks =
    [
        new("M1", new SiteCoordinate(0, 0), new ProjectedCoordinate(390000, 6161000), 0.005),
        new("M2", new SiteCoordinate(1000, 0), new ProjectedCoordinate(390999.7, 6161000), 0.005),
        new("M3", new SiteCoordinate(0, 1000), new ProjectedCoordinate(390000, 6161999.7), 0.005),
    ];

    private static SiteSettings SiteSettings() => new(
        Code, "Invented bench site", true, "Etc/UTC", new LocalTime(0, 0),
        [new Shift("day", new LocalTime(6, 0)), new Shift("night", new LocalTime(18, 0))],
        25832, new LevelDatum("SLD", "Invented datum"), new GridAxes("X", "Y"), "A-Z0-9-", 0.03,
        [new SandSource("Pit 1", 0.8, new LocalDate(2026, 2, 1), "Trial 1")],
        [
            new Zone(
                "A", "Zone A", Pattern.Square, SpacingMetres, null, 2.0, -12.4, -30.5, TipRule.Level, null, null, 0.7124, 3.1416, "Pit 1",
                new Limits(0.150, 0.300, 0.2, 0.05, 0.57, "Approval 1", "Clause 4.2"), 0.100,
                [CheckName.Position, CheckName.Top, CheckName.Tip, CheckName.Sand], []),
        ],
        StudySite.Arms.GroupBy(arm => arm.Barge)
            .Select(barge => new Barge(barge.Key, barge.Select(arm => new Casing(arm.Casing, 1.2, 1.25, arm.Forward, arm.Starboard)).ToArray(), null)).ToArray());
}
