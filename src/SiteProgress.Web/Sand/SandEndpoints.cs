using SiteProgress.Core.Progress;
using SiteProgress.Exchange;
using SiteProgress.Jobs.Sand;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Sand;

/// <summary>The sand account for programs and as tables.</summary>
internal sealed class SandEndpoints : IEndpoints
{
    /// <inheritdoc />
    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
    {
        api.MapGet("/sites/{site}/sand-account", (HttpContext http, string site, ReadSandAccount read) =>
                Api.AskAsync(http, site, (permit, cancellation) => read.RunAsync(permit, cancellation)))
            .Produces<SandAccountView>().WithName("SandAccount").WithSummary("Sand by deliveries and stocks against sand by the records from one measured stock to the next, and pile by pile the log against record and charges. Loose cubic metres.");
        api.MapGet("/sites/{site}/sand-account.csv", (HttpContext http, string site, ReadSandAccount read) =>
                Api.AskAsync(http, site, async (permit, cancellation) => await read.RunAsync(permit, cancellation) is { } view ? TableAnswer.Of($"{permit.SiteCode}-sand-account.csv", Periods, view) : null))
            .Produces<string>(contentType: TableAnswer.ContentType).WithName("SandAccountTable").WithSummary("The account from stock to stock as a table.");
        api.MapGet("/sites/{site}/sand-by-source.csv", (HttpContext http, string site, ReadSandAccount read) =>
                Api.AskAsync(http, site, async (permit, cancellation) => await read.RunAsync(permit, cancellation) is { } view ? TableAnswer.Of($"{permit.SiteCode}-sand-by-source.csv", Sources, view) : null))
            .Produces<string>(contentType: TableAnswer.ContentType).WithName("SandBySourceTable").WithSummary("Sand of each source over the whole work: delivered, in casing, in pile, and C approved and observed.");
        api.MapGet("/sites/{site}/sand-by-log.csv", (HttpContext http, string site, ReadSandAccount read) =>
                Api.AskAsync(http, site, async (permit, cancellation) => await read.RunAsync(permit, cancellation) is { } view ? TableAnswer.Of($"{permit.SiteCode}-sand-by-log.csv", Piles, view) : null))
            .Produces<string>(contentType: TableAnswer.ContentType).WithName("SandByLogTable").WithSummary("Sand of each pile with a log: by log, record and charges.");
    }

    private static void Sources(TableWriter table, SandAccountView view)
    {
        table.Header("Source", "Delivered, loose [m3]", "Lost, loose [m3]", "Piles that stand", "Without sand", "In casing, used, loose [m3]", "In casing, standing, loose [m3]", "In pile [m3]", "Design in pile [m3]", "Of design [%]", "C approved", "C observed");
        foreach (SandOfSource one in view.Sources)
        {
            table.Text(one.Source).Number(one.DeliveredCubicMetres, 1).Number(one.WastedCubicMetres, 1).Whole(one.Piles).Whole(one.WithoutSand).Number(one.InCasingUsed, 1).Number(one.InCasingStanding, 1)
                .Number(one.InPile, 1).Number(one.DesignInPile, 1).Number(one.OfDesignRatio * 100, 2).Number(one.ApprovedFactor, 3).Number(one.ObservedFactor, 3).EndRow();
        }
    }

    private static void Periods(TableWriter table, SandAccountView view)
    {
        table.Header(
            "First working day", "Last working day", "Barge", "Source", "Opening stock, loose [m3]", "Delivered, loose [m3]", "Lost, loose [m3]", "Closing stock, loose [m3]",
            "Used by the account, loose [m3]", "Used by the records, loose [m3]", "Used, by logs where there are, loose [m3]", "Installations", "With a log", "Difference [m3]", "Difference [%]", "Limit [%]", "Over the limit", "Non-conformance");
        foreach (SandPeriodLine line in view.Periods)
        {
            SandPeriod one = line.Account;
            table.Text(ShowDay.InAddress(line.FirstDay.ToDateOnly())).Text(ShowDay.InAddress(line.LastDay.ToDateOnly())).Text(one.Barge.Length > 0 ? one.Barge : "whole site").Text(one.Source)
                .Number(one.OpeningCubicMetres, 1).Number(one.DeliveredCubicMetres, 1).Number(one.WastedCubicMetres, 1).Number(one.ClosingCubicMetres, 1)
                .Number(one.ByAccountCubicMetres, 1).Number(one.ByRecordsCubicMetres, 1).Number(one.ByLogsCubicMetres, 1).Whole(one.Installations).Whole(one.WithLog)
                .Number(one.DifferenceCubicMetres, 1).Number(one.DifferenceRatio * 100, 2).Number(one.LimitRatio * 100, 2).Text(one.OverLimit ? "yes" : "no").Whole(line.NonConformance).EndRow();
        }
    }

    private static void Piles(TableWriter table, SandAccountView view)
    {
        table.Header(
            "Pile No", "Barge", "Casing", "Working day", "Sand on the record, loose [m3]", "Sand by the log, loose [m3]", "Charged, loose [m3]", "Log against record [%]",
            "Charges compared, loose [m3]", "Seen by the gauge, loose [m3]", "Gauge against charges [%]", "Over the limit");
        foreach (SandOfLog one in view.Piles)
        {
            table.Text(one.Pile).Text(one.Barge).Whole(one.Casing).Text(one.WorkingDay is { } day ? ShowDay.InAddress(day.ToDateOnly()) : null)
                .Number(one.RecordCubicMetres, 1).Number(one.LogCubicMetres, 2).Number(one.ChargedCubicMetres, 2).Number(one.AgainstRecordRatio * 100, 2)
                .Number(one.ComparedCubicMetres, 2).Number(one.SeenCubicMetres, 2).Number(one.ChargesRatio * 100, 2).Text(one.OverLimit ? "yes" : "no").EndRow();
        }
    }
}
