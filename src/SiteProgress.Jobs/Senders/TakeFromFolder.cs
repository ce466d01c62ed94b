using System.Globalization;
using System.Text;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;

namespace SiteProgress.Jobs.Senders;

/// <summary>
/// Takes files that a machine leaves in a folder. A file is taken when it has lain unchanged for a while, and is moved once it is
/// dealt with: to <c>taken</c>, or to <c>failed</c> with a sentence beside it. A crash in between makes it be taken again, which records
/// nothing twice.
/// </summary>
[WithoutPermit("The operator names site, sender and folder in the settings of the server.")]
public sealed class TakeFromFolder(SenderGate gate, TakeInstallations take, SenderLimits limits, TimeProvider time)
{
    private const string WhyNot = "why-nothing-is-taken.txt";
    private static readonly string[] UnfinishedEndings = [".part", ".partial", ".filepart", ".tmp", ".temp", ".crdownload", ".swp"];

    /// <summary>Looks once at a folder and takes what is ready.</summary>
    /// <param name="folder">Which folder, and whose.</param>
    /// <param name="seen">What the looks before saw; kept up here.</param>
    /// <param name="cancellation">Ends the look between two files.</param>
    /// <returns>Names of the files that were dealt with.</returns>
    public async Task<IReadOnlyList<string>> LookAsync(WatchedFolder folder, SeenFiles seen, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(seen);
        Directory.CreateDirectory(Path.Combine(folder.Path, "taken"));
        Directory.CreateDirectory(Path.Combine(folder.Path, "failed"));
        string[] ready = [.. Ready(folder, seen)];
        if (ready.Length == 0) return [];
        SenderPermit? permit = await gate.EnterForFolderAsync(folder.Site, folder.Sender, cancellation);
        if (permit is null)
        {
            await File.WriteAllTextAsync(Path.Combine(folder.Path, WhyNot), $"Nothing is taken from this folder: no key of the sender '{folder.Sender}' works on the site '{folder.Site}'. The site's administrator makes one on the page Senders.\n", cancellation);
            return [];
        }

        File.Delete(Path.Combine(folder.Path, WhyNot));
        List<string> done = [];
        foreach (string name in ready)
        {
            cancellation.ThrowIfCancellationRequested();
            if (await DealWithAsync(permit, folder.Path, name)) done.Add(name);
        }

        return done;
    }

    /// <summary>Files that have lain unchanged long enough. A name that says "not finished" waits until it is renamed; a link leads elsewhere and is left.</summary>
    private IEnumerable<string> Ready(WatchedFolder folder, SeenFiles seen)
    {
        DateTimeOffset now = time.GetUtcNow();
        HashSet<string> there = [];
        foreach (FileInfo file in new DirectoryInfo(folder.Path).EnumerateFiles().OrderBy(file => file.Name, StringComparer.Ordinal))
        {
            if (file.Name[0] is '.' or '~' || file.Name == WhyNot || file.LinkTarget is not null || file.Length == 0) continue;
            if (UnfinishedEndings.Any(ending => file.Name.EndsWith(ending, StringComparison.OrdinalIgnoreCase))) continue;
            there.Add(file.Name);
            if (now - seen.UnchangedSince(file, now) >= TimeSpan.FromSeconds(limits.SettleSeconds)) yield return file.Name;
        }

        seen.KeepOnly(there);
    }

    private async Task<bool> DealWithAsync(SenderPermit permit, string path, string name)
    {
        FileInfo file = new(Path.Combine(path, name));
        if (file.Length > limits.LargestRequestBytes)
            return Put(path, name, "failed", string.Create(CultureInfo.InvariantCulture, $"The file is longer than {limits.LargestRequestBytes / 1048576.0:0.#} MB, the most that is taken at once. Split it.\n"));

        byte[] bytes = await File.ReadAllBytesAsync(file.FullName);
        file.Refresh();
        if (bytes.Length != file.Length) return false; // It grew meanwhile; the next look sees the change.
        SentForm form = name.EndsWith(".json", StringComparison.OrdinalIgnoreCase) ? SentForm.Json : SentForm.Text;
        SentAnswer answer = await take.RunAsync(permit, form, name, bytes, CancellationToken.None);
        if (answer.Later is not null) return false;
        string? told = answer.Problems.Count == 0 ? null : Told(answer);
        return Put(path, name, answer.WholeRefused ? "failed" : "taken", told);
    }

    private static string Told(SentAnswer answer)
    {
        StringBuilder text = new();
        text.Append(CultureInfo.InvariantCulture, $"Rows: {answer.RowsRead} read, {answer.Recorded} recorded, {answer.AlreadyRecorded} recorded before, {answer.NotTaken} not taken.\n");
        foreach (RowProblem problem in answer.Problems)
        {
            string place = problem.Row > 0 ? string.Create(CultureInfo.InvariantCulture, $"Row {problem.Row}") : "The file";
            text.Append(CultureInfo.InvariantCulture, $"{place}{(problem.Column is null ? "" : ", column " + problem.Column)}: {(problem.Found is null ? "" : $"found \"{problem.Found}\"; ")}expected {problem.Expected}.\n");
        }

        return text.ToString();
    }

    private static bool Put(string path, string name, string where, string? told)
    {
        string folder = Path.Combine(path, where);
        string free = name;
        for (int again = 2; File.Exists(Path.Combine(folder, free)); again++)
            free = string.Create(CultureInfo.InvariantCulture, $"{Path.GetFileNameWithoutExtension(name)}-{again}{Path.GetExtension(name)}");
        if (told is not null) File.WriteAllText(Path.Combine(folder, free + ".txt"), told);
        File.Move(Path.Combine(path, name), Path.Combine(folder, free));
        return true;
    }
}

/// <summary>What the looks into one folder saw, so that a file that still grows is left alone.</summary>
public sealed class SeenFiles
{
    private readonly Dictionary<string, (long Length, DateTime Written, DateTimeOffset Since)> _seen = [];

    /// <summary>Since when a file has had this length and time of writing.</summary>
    internal DateTimeOffset UnchangedSince(FileInfo file, DateTimeOffset now)
    {
        if (!_seen.TryGetValue(file.Name, out var before) || before.Length != file.Length || before.Written != file.LastWriteTimeUtc)
            _seen[file.Name] = before = (file.Length, file.LastWriteTimeUtc, now);
        return before.Since;
    }

    internal void KeepOnly(IReadOnlySet<string> names)
    {
        foreach (string gone in _seen.Keys.Where(name => !names.Contains(name)).ToArray()) _seen.Remove(gone);
    }
}
