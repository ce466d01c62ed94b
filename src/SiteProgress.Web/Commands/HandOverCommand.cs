using SiteProgress.Jobs.HandOver;

namespace SiteProgress.Web.Commands;

/// <summary>Writes the hand-over package of a site to a file.</summary>
internal sealed class HandOverCommand : ICommand
{
    public string Name => "hand-over";

    public string Arguments => "SITE FILE.zip";

    public string Summary => "writes the whole record of a site as one archive that can be checked without this software";

    public async Task<int> RunAsync(CommandCall call)
    {
        IReadOnlyList<string> words = call.Take(2);
        if (File.Exists(words[1])) throw new CommandFailedException($"{words[1]} is there already; a package is never written over another file.");
        using IServiceScope work = call.Work();
        HandOverPackage package = await work.ServiceProvider.GetRequiredService<WriteHandOver>().RunAsOperatorAsync(words[0], CancellationToken.None)
            ?? throw new CommandFailedException($"There is no site '{words[0]}'.");
        await using (package.Bytes)
        await using (FileStream file = new(words[1], FileMode.CreateNew)) await package.Bytes.CopyToAsync(file);
        await call.Output.WriteLineAsync($"records: 1 to {package.Sequence}");
        await call.Output.WriteLineAsync($"head: {package.Head}");
        await call.Output.WriteLineAsync($"sha256: {package.Sha256}");
        return 0;
    }
}
