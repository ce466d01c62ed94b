using System.Data.Common;
using SiteProgress.Jobs.Operation;

namespace SiteProgress.Web.Commands;

/// <summary>The executable's command line: <c>COMMAND ARGUMENTS --setting value</c>. Without a command it serves.</summary>
public static class CommandLine
{
    /// <summary>Exit status of a call that cannot be understood.</summary>
    public const int Misused = 2;

    /// <summary>Every command, in the order of the list shown to the operator.</summary>
    public static IReadOnlyList<ICommand> All { get; } =
    [
        new Serve(),
        new MigrateCommand(),
        new LoadDemoCommand(),
        new OpenSiteCommand(),
        new GrantRoleCommand(),
        new VerifyCommand(),
        new RebuildCommand(),
        new HandOverCommand(),
        new ConvertCommand(),
        new ReadFilesCommand(),
        new ReadLogCommand(),
        new ReviewDeviationsCommand(),
        new CreateAccountCommand(),
        new PasswordLinkCommand(),
        new FirstAdministratorCommand(),
        new CloseAccountCommand(),
    ];

    /// <summary>Runs the command that was asked for.</summary>
    /// <returns>Exit status: 0 done, 1 failed, 2 not understood, 3 the store is newer than the program.</returns>
    public static async Task<int> RunAsync(string[] arguments, TextWriter output, TextWriter error)
    {
        string name = arguments is [{ } first, ..] && !first.StartsWith('-') ? first : "serve";
        string[] rest = arguments is [{ } word, ..] && word == name ? arguments[1..] : arguments;
        if (name == "help") return await ListAsync(output);
        if (All.FirstOrDefault(known => known.Name == name) is not { } command)
        {
            await error.WriteLineAsync($"There is no command \"{name}\".");
            await ListAsync(error);
            return Misused;
        }

        (List<string> words, List<string> settings) = Split(rest);
        await using CommandCall call = new(command, words, [.. settings], output, error);
        try
        {
            return await command.RunAsync(call);
        }
        catch (CommandFailedException failure)
        {
            await error.WriteLineAsync(failure.Message);
            return failure.ExitStatus;
        }
        catch (Exception failure) when (StoreFailure.Of(failure) is not null)
        {
            await error.WriteLineAsync(StoreSentence(StoreFailure.Of(failure)!));
            return 1;
        }
    }

    private static async Task<int> ListAsync(TextWriter to)
    {
        await to.WriteLineAsync("Commands:");
        foreach (ICommand known in All)
        {
            await to.WriteLineAsync($"  {known.Name} {known.Arguments}".TrimEnd());
            await to.WriteLineAsync($"      {known.Summary}");
        }

        return 0;
    }

    /// <summary>Settings are <c>--key value</c> or <c>--key=value</c>; everything else is a word of the command.</summary>
    private static (List<string> Words, List<string> Settings) Split(string[] arguments)
    {
        List<string> words = [];
        List<string> settings = [];
        for (int at = 0; at < arguments.Length; at++)
        {
            string argument = arguments[at];
            if (!argument.StartsWith("--", StringComparison.Ordinal))
            {
                words.Add(argument);
                continue;
            }

            settings.Add(argument);
            if (!argument.Contains('=', StringComparison.Ordinal) && at + 1 < arguments.Length) settings.Add(arguments[++at]);
        }

        return (words, settings);
    }

    private static string StoreSentence(DbException failure) => failure.SqlState is { } state
        ? state switch
        {
            "42P01" or "3F000" => "The store has no schema of this version yet: run the command migrate first.",
            "28P01" or "28000" => "The store refused the account or password of the connection string.",
            "3D000" => "The database named in the connection string does not exist.",
            "42501" => "The account of the connection string may not do this.",
            _ => $"The store refused this (SQLSTATE {state}).",
        }
        : "The store cannot be reached: is PostgreSQL running, and does the connection string name the right place?";
}
