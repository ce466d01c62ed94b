namespace SiteProgress.Web.Commands;

/// <summary>The web application's builder, made alike for the server and for commands.</summary>
internal static class ServerBuilder
{
    /// <summary>A builder that finds its files beside the program when it was published, from whatever folder it is started.</summary>
    public static WebApplicationBuilder Make(string[] settings)
    {
        bool published = Directory.Exists(Path.Combine(AppContext.BaseDirectory, "wwwroot"));
        return WebApplication.CreateBuilder(new WebApplicationOptions
        {
            Args = settings,
            ContentRootPath = published ? AppContext.BaseDirectory : null,
        });
    }

    /// <summary>A connection string of the configuration.</summary>
    /// <exception cref="CommandFailedException">It is not set.</exception>
    public static string ConnectionString(IConfiguration configuration, string name)
        => configuration.GetConnectionString(name) is { Length: > 0 } text
            ? text
            : throw new CommandFailedException(
                $"No connection string: set ConnectionStrings:{name} (environment: ConnectionStrings__{name}), or start with ./run.");
}
