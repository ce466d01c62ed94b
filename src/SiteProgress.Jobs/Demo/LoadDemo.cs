using System.IO.Compression;
using System.Text.Json;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Progress;
using SiteProgress.Jobs.RecordsIn;
using SiteProgress.Jobs.SiteGrid;
using SiteProgress.Jobs.Sites;

namespace SiteProgress.Jobs.Demo;

/// <summary>
/// Loads the invented site from its files: opens it as the operator does and brings every file in by the very jobs that a
/// person's upload goes through.
/// </summary>
[WithoutPermit("A command of the operator at the machine, on an empty store.")]
public sealed class LoadDemo(OpenSiteFromFiles openSite, GrantRole grantRole, Gate gate, StoreUpload storeUpload, RecordUpload recordUpload, ReviseWorkPlan reviseWorkPlan, RecordObservations recordObservations)
{
    /// <summary>Loads a folder.</summary>
    /// <param name="folder">The folder with site.json, control-points.csv, schedules and as-built files.</param>
    /// <param name="people">An account for every role.</param>
    /// <param name="say">Is told each step.</param>
    /// <param name="cancellation">Stops the work; what was recorded by then stays.</param>
    /// <returns>Null, or why loading stopped.</returns>
    public async Task<string?> RunAsync(
        string folder, IReadOnlyDictionary<Role, Guid> people, Action<string> say, CancellationToken cancellation)
    {
        OpenSiteResult opened = await openSite.RunAsync(
            Path.Combine(folder, "site.json"), Path.Combine(folder, "control-points.csv"), Path.Combine(folder, "site-drawing.geojson"), cancellation);
        if (opened.Refusal is not null) return opened.Refusal;
        foreach ((Role role, Guid account) in people)
        {
            if (await grantRole.RunAsOperatorAsync(opened.Code!, account, role, cancellation) is { } refusal) return refusal;
        }

        foreach (string path in FilesInOrder(folder))
        {
            if (await BringInAsync(opened.Code!, people[KeeperOf(path)], path, say, cancellation) is { } refusal) return $"{Path.GetFileName(path)}: {refusal}";
        }

        return await PlanWorkAsync(opened.Code!, people[Role.ProjectManager], Path.Combine(folder, "work-plan.json"), say, cancellation)
            ?? await ObserveAsync(opened.Code!, people[Role.Surveyor], Path.Combine(folder, "control-point-observations.csv"), say, cancellation)
            ?? await BringInLogsAsync(opened.Code!, people[Role.Surveyor], Path.Combine(folder, "logs"), say, cancellation);
    }

    /// <summary>Brings in the logs through the same door as all records: a file a barge and day.</summary>
    private async Task<string?> BringInLogsAsync(string siteCode, Guid surveyor, string folder, Action<string> say, CancellationToken cancellation)
    {
        if (!Directory.Exists(folder)) return null;
        foreach (string path in Directory.EnumerateFiles(folder, "*.csv.gz").Order(StringComparer.Ordinal))
        {
            await using FileStream packed = File.OpenRead(path);
            await using GZipStream rows = new(packed, CompressionMode.Decompress);
            if (await BringInAsync(siteCode, surveyor, Path.GetFileNameWithoutExtension(path), rows, say, cancellation) is { } refusal) return $"{Path.GetFileName(path)}: {refusal}";
        }

        return null;
    }

    private async Task<string?> ObserveAsync(string siteCode, Guid surveyor, string path, Action<string> say, CancellationToken cancellation)
    {
        if (!File.Exists(path)) return null;
        Permit permit = await gate.EnterAsync(surveyor, siteCode, cancellation) ?? throw new InvalidOperationException("The surveyor's role was just granted.");
        IReadOnlyList<string> problems = await recordObservations.RunAsync(permit, await File.ReadAllTextAsync(path, cancellation), cancellation);
        if (problems.Count > 0) return $"{Path.GetFileName(path)}: {problems[0]}";
        say($"{Path.GetFileName(path)}: observations of control points");
        return null;
    }

    // Diary and schedule are the manager's to keep.
    private static readonly string[] ManagersFiles = ["diary.csv", "planned-progress.csv"];

    private static readonly string[] GroundFiles = ["ground-investigation.ags", "seabed-before.csv", "seabed-after.csv"];

    private static Role KeeperOf(string path) => ManagersFiles.Contains(Path.GetFileName(path)) ? Role.ProjectManager : Role.Surveyor;

    private async Task<string?> PlanWorkAsync(string siteCode, Guid manager, string path, Action<string> say, CancellationToken cancellation)
    {
        if (!File.Exists(path)) return null;
        Permit permit = await gate.EnterAsync(manager, siteCode, cancellation) ?? throw new InvalidOperationException("The manager's role was just granted.");
        WorkPlan plan = JsonSerializer.Deserialize<WorkPlan>(await File.ReadAllTextAsync(path, cancellation), RecordJson.Options)!;
        string? refusal = await reviseWorkPlan.RunAsync(permit, plan, "Plan at the beginning of the work", cancellation);
        if (refusal is null) say($"{Path.GetFileName(path)}: plan of work");
        return refusal;
    }

    private async Task<string?> BringInAsync(string siteCode, Guid surveyor, string path, Action<string> say, CancellationToken cancellation)
    {
        await using FileStream bytes = File.OpenRead(path);
        return await BringInAsync(siteCode, surveyor, Path.GetFileName(path), bytes, say, cancellation);
    }

    private async Task<string?> BringInAsync(string siteCode, Guid surveyor, string name, Stream bytes, Action<string> say, CancellationToken cancellation)
    {
        Permit permit = await gate.EnterAsync(surveyor, siteCode, cancellation) ?? throw new InvalidOperationException("The role was just granted.");
        UploadResult upload = await storeUpload.RunAsync(permit, name, bytes, cancellation);
        if (upload.Upload is not { } key) return upload.Refusal;
        RecordingResult recorded = await recordUpload.RunAsync(permit, key, UploadChoices.AsTheFileSays, leaveOutProblems: false, cancellation);
        if (recorded.Refusal is null) say($"{name}: {recorded.Rows} rows");
        return recorded.Refusal;
    }

    private static IEnumerable<string> FilesInOrder(string folder)
    {
        IEnumerable<string> schedules = Directory.EnumerateFiles(folder, "planned-piles*").Order(StringComparer.Ordinal);
        IEnumerable<string> asBuilt = Directory.EnumerateFiles(Path.Combine(folder, "as-built")).Order(StringComparer.Ordinal);
        IEnumerable<string> kept = ManagersFiles.Select(name => Path.Combine(folder, name)).Where(File.Exists);
        IEnumerable<string> ground = GroundFiles.Select(name => Path.Combine(folder, name)).Where(File.Exists);
        return schedules.Concat(asBuilt).Append(Path.Combine(folder, "check-measurements.csv")).Append(Path.Combine(folder, "sand-deliveries.csv")).Append(Path.Combine(folder, "tide.csv")).Concat(kept).Concat(ground);
    }
}
