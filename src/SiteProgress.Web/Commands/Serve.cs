using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Commands;

/// <summary>Serves the pages and the HTTP interface.</summary>
internal sealed class Serve : ICommand
{
    public string Name => "serve";

    public string Arguments => "--urls http://127.0.0.1:PORT";

    public string Summary => "serves the pages and the HTTP interface (this is what happens without a command)";

    public async Task<int> RunAsync(CommandCall call)
    {
        call.Take(0);
        WebApplicationBuilder builder = ServerBuilder.Make(call.Settings);
        Exposure exposure = Exposure.Read(builder.Configuration);
        builder.AddShell(exposure, ServerBuilder.ConnectionString(builder.Configuration, "Web"));
        await using WebApplication app = builder.Build();
        app.UseShell(exposure);
        try
        {
            await app.RunAsync();
        }
        catch (IOException failure) when (failure.InnerException is Microsoft.AspNetCore.Connections.AddressInUseException)
        {
            throw new CommandFailedException($"The address {string.Join(", ", exposure.Addresses)} is taken by another program; choose another port.");
        }

        return 0;
    }
}
