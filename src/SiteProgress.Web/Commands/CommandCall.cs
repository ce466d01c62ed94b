using SiteProgress.Jobs.Accounts;

namespace SiteProgress.Web.Commands;

/// <summary>One call of a command: its arguments, the configuration, the store, and where words to the operator go.</summary>
/// <param name="command">The command that was called.</param>
/// <param name="words">What stood after its name, without settings (<c>--key value</c>).</param>
/// <param name="settings">Settings of the command line, as the configuration reads them.</param>
/// <param name="output">For answers.</param>
/// <param name="error">For failures.</param>
public sealed class CommandCall(
    ICommand command, IReadOnlyList<string> words, string[] settings, TextWriter output, TextWriter error) : IAsyncDisposable
{
    private readonly Lazy<IConfiguration> configuration = new(() => ServerBuilder.Make(settings).Configuration);
    private ServiceProvider? services;

    /// <summary>What stood after the name, without settings.</summary>
    public IReadOnlyList<string> Words { get; } = words;

    /// <summary>Settings of the command line, as they were typed.</summary>
    public string[] Settings { get; } = settings;

    /// <summary>Answers.</summary>
    public TextWriter Output { get; } = output;

    /// <summary>Failures.</summary>
    public TextWriter Error { get; } = error;

    /// <summary>appsettings.json, environment and command line.</summary>
    public IConfiguration Configuration => configuration.Value;

    /// <summary>The words, when there are as many as the command names.</summary>
    /// <param name="count">How many it needs.</param>
    /// <exception cref="CommandFailedException">There are more or fewer.</exception>
    public IReadOnlyList<string> Take(int count)
        => Words.Count == count
            ? Words
            : throw new CommandFailedException($"use: {command.Name} {command.Arguments}".TrimEnd(), CommandLine.Misused);

    /// <summary>A connection string of the configuration.</summary>
    /// <param name="name"><c>Web</c> or <c>Owner</c>.</param>
    /// <exception cref="CommandFailedException">It is not set.</exception>
    public string ConnectionString(string name) => ServerBuilder.ConnectionString(Configuration, name);

    /// <summary>The jobs and accounts over the store, for one piece of work.</summary>
    public IServiceScope Work()
    {
        services ??= Assemble();
        return services.CreateScope();
    }

    /// <inheritdoc />
    public async ValueTask DisposeAsync()
    {
        if (services is not null) await services.DisposeAsync();
    }

    private ServiceProvider Assemble()
    {
        ServiceCollection collection = new();
        collection.AddSingleton(Configuration);
        // What a library logs of a failure comes back as one sentence; the operator need not read it twice, at length.
        collection.AddLogging(logging => logging
            .AddFilter((category, level) => level >= LogLevel.Warning && category?.StartsWith("SiteProgress", StringComparison.Ordinal) == true)
            .AddConsole(console => console.LogToStandardErrorThreshold = LogLevel.Trace));
        collection.AddProduct(Configuration, ConnectionString("Web"));
        collection.AddAccounts();
        return collection.BuildServiceProvider();
    }
}
