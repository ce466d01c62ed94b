using SiteProgress.Exchange;
using SiteProgress.Jobs.Outstanding;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Outstanding;

/// <summary>What is left to build for programs, and as a table.</summary>
internal sealed class OutstandingEndpoints : IEndpoints
{
    private static int MostRows => 1000;

    /// <inheritdoc />
    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
    {
        api.MapGet("/sites/{site}/outstanding", (HttpContext http, string site, string? zone, string? what, string? sort, string? order, int? skip, int? take, ReadOutstanding read) =>
                Unread(what, sort, order) ?? Api.AskAsync(http, site, (permit, cancellation) => read.RunAsync(
                    permit,
                    OutstandingQuery.Read("", zone, what, sort, order, null).Request with
                    {
                        Skip = Math.Max(0, skip ?? 0),
                        Take = Math.Clamp(take ?? OutstandingQuery.PageSize, 0, MostRows),
                    },
                    cancellation)))
            .Produces<OutstandingView>().WithName("Outstanding")
            .WithSummary("What is left by zone, gaps in finished blocks, records that wait, and a page of the outstanding piles (skip, take up to 1000).");
        api.MapGet("/sites/{site}/outstanding.csv", (HttpContext http, string site, string? zone, string? what, string? sort, string? order, ReadOutstanding read) =>
                Unread(what, sort, order) ?? Api.AskAsync(http, site, async (permit, cancellation) =>
                    await read.RunAsync(permit, OutstandingQuery.Read("", zone, what, sort, order, null).Request with { Skip = 0, Take = null }, cancellation) is { } left
                        ? TableAnswer.Of($"{permit.SiteCode}-outstanding.csv", Piles, left)
                        : null))
            .Produces<string>(contentType: TableAnswer.ContentType).WithName("OutstandingTable").WithSummary("All chosen outstanding piles as a table.");
    }

    private static Task<IResult>? Unread(string? what, string? sort, string? order)
    {
        ReadOutstanding.Request read = OutstandingQuery.Read("", null, what, sort, order, null).Request;
        IResult? refusal = AskedParts.Refusal(
            ("what", what, read.Kind is not null, "gaps, rows, attempted, awaiting or not-attempted"),
            ("sort", sort, string.Equals(sort, read.OrderedBy.ToString(), StringComparison.OrdinalIgnoreCase), "one of number, zone, x, y, length, attempts"),
            ("order", order, order is "asc" or "desc", "asc or desc"));
        return refusal is null ? null : Task.FromResult(refusal);
    }

    private static void Piles(TableWriter table, OutstandingView left)
    {
        table.Header("Pile No", "Zone", "State", "Apart because", "X [m]", "Y [m]", "Top level [m]", "Tip level [m]", "Design length [m]", "Length is least length", "Attempts", "Remark", "Waits for hold point");
        foreach (OutstandingPile pile in left.Rows)
        {
            table.Text(pile.Number).Text(pile.Zone).Text(StateWords.Of(pile.State)).Text(OutstandingQuery.Of(pile.Kind))
                .Number(pile.XMetres, 3).Number(pile.YMetres, 3).Number(pile.TopLevelMetres, 2).Number(pile.TipLevelMetres, 2)
                .Number(pile.DesignLengthMetres, 2).Text(pile.IsLeastLength ? "yes" : "no").Whole(pile.Attempts).Text(pile.Remark).Whole(pile.HeldBy).EndRow();
        }
    }
}
