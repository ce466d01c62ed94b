using SiteProgress.Jobs.Operation;
using SiteProgress.Jobs.Verification;

namespace SiteProgress.Web.Commands;

/// <summary>Creates or updates the schema of the store.</summary>
internal sealed class MigrateCommand : ICommand
{
    /// <summary>Exit status when the store was written by a newer version.</summary>
    private const int StoreIsNewer = 3;

    public string Name => "migrate";

    public string Arguments => "";

    public string Summary => "creates or updates the schema of the store, with the owner's connection";

    public async Task<int> RunAsync(CommandCall call)
    {
        call.Take(0);
        string owner = call.ConnectionString("Owner");
        string web = call.ConnectionString("Web");
        using IServiceScope work = call.Work();
        string? refusal = await work.ServiceProvider.GetRequiredService<MigrateStore>()
            .RunAsync(owner, web, call.Output.WriteLine, CancellationToken.None);
        return refusal is null ? 0 : throw new CommandFailedException(refusal, StoreIsNewer);
    }
}

/// <summary>Recomputes chain and derived state of a site and names the first break.</summary>
internal sealed class VerifyCommand : ICommand
{
    public string Name => "verify";

    public string Arguments => "SITE";

    public string Summary => "recomputes chain and derived state of a site and names the first break";

    public async Task<int> RunAsync(CommandCall call)
    {
        string site = call.Take(1)[0];
        using IServiceScope work = call.Work();
        SiteVerification found = await work.ServiceProvider.GetRequiredService<VerifySite>().RunAsync(site, CancellationToken.None)
            ?? throw new CommandFailedException($"There is no site '{site}'.");
        await call.Output.WriteLineAsync($"records: {found.Records}");
        await call.Output.WriteLineAsync($"chain: {found.ChainBreak?.Reason ?? "holds"}");
        await call.Output.WriteLineAsync($"heads kept outside the store: {found.HeadBreak ?? "agree"}");
        FilesVerification? files = found.ChainBreak is null ? await work.ServiceProvider.GetRequiredService<VerifyFiles>().RunAsync(site, CancellationToken.None) : null;
        await call.Output.WriteLineAsync($"files as they came in: {(files is null ? "not looked at, as the chain is broken" : files.FirstBreak ?? $"{files.Files} agree with their records")}");
        await TableReport.WriteAsync(call.Output, found.Tables);
        return found.Sound && files?.FirstBreak is null ? 0 : 1;
    }
}

/// <summary>Makes the derived state of a site anew and says whether it was identical.</summary>
internal sealed class RebuildCommand : ICommand
{
    public string Name => "rebuild";

    public string Arguments => "SITE";

    public string Summary => "makes the derived state of a site anew from its records and says whether it was identical";

    public async Task<int> RunAsync(CommandCall call)
    {
        string site = call.Take(1)[0];
        using IServiceScope work = call.Work();
        IReadOnlyList<DerivedDifference> tables = await work.ServiceProvider.GetRequiredService<RebuildSite>().RunAsync(site, CancellationToken.None)
            ?? throw new CommandFailedException($"There is no site '{site}'.");
        await TableReport.WriteAsync(call.Output, tables);
        bool identical = tables.All(table => table.Identical);
        await call.Output.WriteLineAsync(identical ? "The derived state was identical." : "The derived state differed and was made anew.");
        return identical ? 0 : 1;
    }
}

/// <summary>Says of each derived table whether it is as the records give it.</summary>
internal static class TableReport
{
    public static async Task WriteAsync(TextWriter output, IReadOnlyList<DerivedDifference> tables)
    {
        foreach (DerivedDifference table in tables)
        {
            await output.WriteLineAsync(table.Identical
                ? $"{table.Table}: identical"
                : $"{table.Table}: {table.Unfounded} rows do not follow from the records, {table.Absent} that follow are not there");
        }
    }
}
