using System.Text.RegularExpressions;
using Npgsql;

namespace SiteProgress.TestSupport;

/// <summary>
/// A PostgreSQL server for one test alone, which may therefore be killed. Its database <c>siteprogress</c> is empty but for
/// PostGIS.
/// </summary>
public sealed partial class OwnCluster : IAsyncDisposable
{
    private readonly string folder;

    private OwnCluster(string folder, string administratorConnectionString) =>
        (this.folder, AdministratorConnectionString) = (folder, administratorConnectionString);

    /// <summary>Connection string of the server's administrator, to the database <c>postgres</c>.</summary>
    public string AdministratorConnectionString { get; private set; }

    /// <summary>Connection string of the account that owns the tables.</summary>
    public string OwnerConnectionString => ConnectionString(TestCluster.OwnerAccount);

    /// <summary>Connection string of the account the web application works with, which the migration makes.</summary>
    public string WebConnectionString => ConnectionString(TestCluster.WebAccount);

    /// <summary>Makes and starts a server.</summary>
    public static async Task<OwnCluster> StartAsync()
    {
        var (folder, connection) = await StartAsync("new");
        return new OwnCluster(folder, connection);
    }

    /// <summary>Ends all processes of the server at once, as a power cut would.</summary>
    public Task KillAsync() => ScriptAsync("test-kill", folder);

    /// <summary>Starts the server again on the same data. Its socket may have moved, so connection strings are to be read anew.</summary>
    public async Task StartAgainAsync()
    {
        NpgsqlConnection.ClearAllPools();
        (_, AdministratorConnectionString) = await StartAsync(folder);
    }

    /// <summary>Stops the server and deletes it.</summary>
    public async ValueTask DisposeAsync() => await ScriptAsync("test-stop", folder);

    private static async Task<(string Folder, string Connection)> StartAsync(string folder)
    {
        var output = await ScriptAsync("test-start", folder);
        return (Value(output, "SITEPROGRESS_TEST_CLUSTER_FOLDER"), Value(output, TestCluster.Variable));
    }

    private static async Task<string> ScriptAsync(string command, string folder)
    {
        var script = Path.Combine(Checkout.Folder, "scripts", "private-cluster.sh");
        var result = await Command.RunAsync(script, [command, folder]);
        return result.Status == 0
            ? result.Output
            : throw new InvalidOperationException($"{script} {command} {folder} ended with status {result.Status}: {result.Problems}");
    }

    private static string Value(string output, string name) =>
        ExportedVariable().Matches(output).Single(match => match.Groups["name"].Value == name).Groups["value"].Value;

    private string ConnectionString(string account) =>
        new NpgsqlConnectionStringBuilder(AdministratorConnectionString) { Database = "siteprogress", Username = account }.ConnectionString;

    [GeneratedRegex("^export (?<name>[A-Z_]+)='(?<value>[^']*)'$", RegexOptions.Multiline)]
    private static partial Regex ExportedVariable();
}
