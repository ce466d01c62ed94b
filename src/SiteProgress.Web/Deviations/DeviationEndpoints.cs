using Microsoft.AspNetCore.Mvc;
using NodaTime;
using SiteProgress.Exchange;
using SiteProgress.Jobs.Deviations;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Deviations;

/// <summary>The review of deviations for programs, and its rows as tables.</summary>
internal sealed class DeviationEndpoints : IEndpoints
{
    private static int MostRows => 1000;

    /// <summary>The review and a page of its piles.</summary>
    /// <param name="Review">Figures, by casing, by day.</param>
    /// <param name="Piles">A page of built piles.</param>
    internal sealed record Answer(DeviationReview Review, ListDeviations.Page Piles);

    /// <summary>What the query of an address may hold; the same words as on the page.</summary>
    internal sealed record Asked(
        [property: FromQuery(Name = "zone")] string? Zone,
        [property: FromQuery(Name = "barge")] string? Barge,
        [property: FromQuery(Name = "casing")] int? Casing,
        [property: FromQuery(Name = "from")] string? From,
        [property: FromQuery(Name = "to")] string? To,
        [property: FromQuery(Name = "attempt")] string? Attempt,
        [property: FromQuery(Name = "judged")] string? Judged,
        [property: FromQuery(Name = "sort")] string? Sort,
        [property: FromQuery(Name = "order")] string? Order,
        [property: FromQuery(Name = "skip")] int? Skip,
        [property: FromQuery(Name = "take")] int? Take)
    {
        /// <summary>A refusal when a part cannot be read; null when all can.</summary>
        public Task<IResult>? Unread()
        {
            ListDeviations.Request read = Request();
            IResult? refusal = AskedParts.Refusal(
                AskedParts.Day("from", From),
                AskedParts.Day("to", To),
                ("attempt", Attempt, read.Selection.Attempt is not null, "first or later"),
                ("judged", Judged, read.Position is not null, "within, beyond or not-judged"),
                ("sort", Sort, DeviationQuery.IsOrder(Sort), DeviationQuery.OrdersInWords),
                ("order", Order, Order is "asc" or "desc", "asc or desc"));
            return refusal is null ? null : Task.FromResult(refusal);
        }

        public ListDeviations.Request Request()
            => DeviationQuery.Read("", Zone, Barge, Casing, From, To, Attempt, Judged, Sort, Order, null).Request with
            {
                Skip = Math.Max(0, Skip ?? 0),
                Take = Math.Clamp(Take ?? DeviationQuery.PageSize, 0, MostRows),
            };
    }

    /// <inheritdoc />
    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
    {
        api.MapGet("/sites/{site}/deviations", (HttpContext http, string site, [AsParameters] Asked asked, ReviewDeviations review, ListDeviations list) =>
                asked.Unread() ?? Api.AskAsync(http, site, async (permit, cancellation) => new Answer(
                    await review.RunAsync(permit, asked.Request().Selection, cancellation), await list.RunAsync(permit, asked.Request(), cancellation))))
            .Produces<Answer>().WithName("Deviations")
            .WithSummary("Figures of built piles by selection, by casing and by day, and a page of the piles (skip, take up to 1000).");
        api.MapGet("/sites/{site}/deviations.csv", (HttpContext http, string site, [AsParameters] Asked asked, ListDeviations list) =>
                asked.Unread() ?? Api.AskAsync(http, site, async (permit, cancellation) => TableAnswer.Of(
                    $"{permit.SiteCode}-deviations.csv", Piles, await list.RunAsync(permit, asked.Request() with { Skip = 0, Take = null }, cancellation))))
            .Produces<string>(contentType: TableAnswer.ContentType).WithName("DeviationsTable").WithSummary("All chosen piles as a table.");
        api.MapGet("/sites/{site}/deviation-days.csv", (HttpContext http, string site, [AsParameters] Asked asked, ReviewDeviations review) =>
                asked.Unread() ?? Api.AskAsync(http, site, async (permit, cancellation) => TableAnswer.Of(
                    $"{permit.SiteCode}-deviation-days.csv", CasingDays, await review.RunAsync(permit, asked.Request().Selection, cancellation))))
            .Produces<string>(contentType: TableAnswer.ContentType).WithName("DeviationDaysTable").WithSummary("Mean deviation by barge, casing and working day.");
    }

    private static void Piles(TableWriter table, ListDeviations.Page page)
    {
        table.Header(
            "Pile No", "Zone", "Barge", "Casing", "Set-up", "Working day", "End (UTC)", "Attempts", "dE [m]", "dN [m]", "Along [m]", "Across [m]", "Radial [m]",
            "Radial limit [m]", "Uncertainty [m]", "Position");
        foreach (ListDeviations.Row row in page.Rows)
        {
            table.Text(row.Number).Text(row.Zone).Text(row.Barge).Whole(row.Casing).Text(row.SetUp)
                .Text(row.WorkingDay is { } day ? ShowDay.InAddress(day) : null)
                .Time(row.EndedAt is { } ended ? Instant.FromDateTimeUtc(ended) : null, DateTimeZone.Utc).Whole(row.Attempts)
                .Number(row.DeviationEastMetres, 4).Number(row.DeviationNorthMetres, 4).Number(row.DeviationAlongMetres, 4).Number(row.DeviationAcrossMetres, 4)
                .Number(row.DeviationRadialMetres, 4).Number(row.RadialLimitMetres, 3).Number(row.UncertaintyMetres, 3)
                .Text(row.IsWithinLimit switch { true => "met", false => "not met", _ => "not judged" }).EndRow();
        }
    }

    private static void CasingDays(TableWriter table, DeviationReview review)
    {
        table.Header("Barge", "Casing", "Working day", "Judged piles", "Mean dE [m]", "Mean dN [m]", "Length of mean [m]");
        foreach (CasingDay day in review.CasingDays)
        {
            table.Text(day.Barge).Whole(day.Casing).Text(ShowDay.InAddress(day.WorkingDay)).Whole(day.Piles)
                .Number(day.MeanEastMetres, 4).Number(day.MeanNorthMetres, 4).Number(day.MeanVectorMetres, 4).EndRow();
        }
    }
}
