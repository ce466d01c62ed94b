using Microsoft.AspNetCore.Mvc;
using NodaTime;
using SiteProgress.Core.Bias;
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
        [property: FromQuery(Name = "take")] int? Take,
        [property: FromQuery(Name = "shift")] string? Shift,
        [property: FromQuery(Name = "frame")] string? Frame,
        [property: FromQuery(Name = "place")] string? Place,
        [property: FromQuery(Name = "radial")] string? Radial)
    {
        /// <summary>A refusal when a part cannot be read; null when all can.</summary>
        public Task<IResult>? Unread()
        {
            ListDeviations.Request read = Request();
            IResult? refusal = AskedParts.Refusal(
                AskedParts.Day("from", From),
                AskedParts.Day("to", To),
                ("attempt", Attempt, read.Selection.Attempt is not null, "first or later"),
                ("judged", Judged, read.Position is not null, "within, beyond, alert or not-judged"),
                ("sort", Sort, DeviationQuery.IsOrder(Sort), DeviationQuery.OrdersInWords),
                ("order", Order, Order is "asc" or "desc", "asc or desc"),
                ("frame", Frame, read.Selection.Deviating is not null, "dE from, to, dN from, to in millimetres, parted by commas"),
                ("place", Place, read.Selection.Place is not null, "first axis from, to, second axis from, to in metres, parted by commas"),
                ("radial", Radial, read.Selection.RadialFrom is not null, "radial deviation from, below in millimetres, parted by a comma"));
            return refusal is null ? null : Task.FromResult(refusal);
        }

        public ListDeviations.Request Request()
            => DeviationQuery.Read("", Zone, Barge, Casing, From, To, Attempt, Judged, Sort, Order, null, new Framed(Shift, Frame, Place, Radial)).Request with
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
        api.MapGet("/sites/{site}/bias", (HttpContext http, string site, ReviewBias review) => Api.AskAsync(http, site, review.RunAsync))
            .Produces<BiasView>().WithName("Bias")
            .WithSummary("What the record shows of bias: claims with the causes behind them, tests of groups, check measurements by barge, and when each barge was last checked.");
        api.MapGet("/sites/{site}/bias.csv", (HttpContext http, string site, ReviewBias review) => Api.AskAsync(http, site, async (permit, cancellation) => TableAnswer.Of(
                $"{permit.SiteCode}-bias.csv", Claims, await review.RunAsync(permit, cancellation))))
            .Produces<string>(contentType: TableAnswer.ContentType).WithName("BiasTable").WithSummary("The claims as a table.");
        api.MapGet("/sites/{site}/position-corrections", (HttpContext http, string site, ReadCorrections corrections) => Api.AskAsync(http, site, corrections.RunAsync))
            .Produces<IReadOnlyList<CorrectionLine>>().WithName("PositionCorrections").WithSummary("Corrections of recorded positions, the newest first, with what became of them.");
        api.MapGet("/sites/{site}/bias-groups.csv", (HttpContext http, string site, ReviewBias review) => Api.AskAsync(http, site, async (permit, cancellation) => TableAnswer.Of(
                $"{permit.SiteCode}-bias-groups.csv", Groups, await review.RunAsync(permit, cancellation))))
            .Produces<string>(contentType: TableAnswer.ContentType).WithName("BiasGroupsTable").WithSummary("Hotelling's test of every barge, casing, week and heading.");
    }

    private static void Claims(TableWriter table, BiasView view)
    {
        table.Header("What", "Barge", "Casing", "From", "To", "Size [m]", "Standard error [m]", "First [m or deg]", "Second [m or deg]", "Set-ups", "Piles", "Within now", "Within then", "Standing", "Sentence");
        foreach (BiasClaim claim in view.Findings.Claims)
        {
            Cause cause = claim.Named.Cause;
            table.Text(ClaimSentences.Name(cause)).Text(cause.Barge).Whole(cause.Casing).Text(Day(claim.FromDay)).Text(Day(claim.ToDay))
                .Number(claim.SizeMetres, 4).Number(claim.SizeStandardError, 4).Number(claim.Named.Values[0].Value, 4)
                .Number(claim.Named.Values.Count > 1 ? claim.Named.Values[1].Value : null, 4).Whole(claim.SetUps)
                .Whole(claim.Touched.Piles).Whole(claim.Touched.WithinNow).Whole(claim.Touched.WithinThen).Text(ClaimWords.Of(claim.Support.Standing)).Text(claim.Sentence).EndRow();
        }

        foreach (CheckFinding check in view.Checks.Where(check => check.StandsOut))
        {
            table.Text("check measurements").Text(check.Barge).Whole(check.Casing).Text(Day(check.FirstDay)).Text(Day(check.LastDay))
                .Number(check.SizeMetres, 4).Number(null, 4).Number(check.ForwardMetres, 4).Number(check.StarboardMetres, 4).Whole(check.Visits)
                .Whole(null).Whole(null).Whole(null).Text("measured").Text(check.Sentence).EndRow();
        }
    }

    private static void Groups(TableWriter table, BiasView view)
    {
        table.Header("Grouped by", "Group", "Axes", "Set-ups", "Mean first [m]", "Mean second [m]", "T squared", "Chance", "False-discovery bound", "Stands out");
        foreach (GroupTest group in view.Findings.Groups)
        {
            table.Text(group.Kind).Text(group.Name).Text(group.Axes).Whole(group.SetUps).Number(group.First, 4).Number(group.Second, 4)
                .Number(group.Test.TSquared, 3).Number(group.Test.Probability, 6).Number(group.Adjusted, 6).Text(group.StandsOut ? "yes" : "no").EndRow();
        }
    }

    private static string? Day(LocalDate? day) => day is { } given ? ShowDay.InAddress(given.ToDateOnly()) : null;

    private static void Piles(TableWriter table, ListDeviations.Page page)
    {
        table.Header(
            "Pile No", "Zone", "Barge", "Casing", "Set-up", "Working day", "End (UTC)", "Attempts", "dE [m]", "dN [m]", "Along [m]", "Across [m]", "Radial [m]",
            "Radial limit [m]", "Limit along [m]", "Limit across [m]", "Uncertainty [m]", "Position", "Beyond alert");
        foreach (ListDeviations.Row row in page.Rows)
        {
            table.Text(row.Number).Text(row.Zone).Text(row.Barge).Whole(row.Casing).Text(row.SetUp)
                .Text(row.WorkingDay is { } day ? ShowDay.InAddress(day) : null)
                .Time(row.EndedAt is { } ended ? Instant.FromDateTimeUtc(ended) : null, DateTimeZone.Utc).Whole(row.Attempts)
                .Number(row.DeviationEastMetres, 4).Number(row.DeviationNorthMetres, 4).Number(row.DeviationAlongMetres, 4).Number(row.DeviationAcrossMetres, 4)
                .Number(row.DeviationRadialMetres, 4).Number(row.RadialLimitMetres, 3).Number(row.AlongLimitMetres, 3).Number(row.AcrossLimitMetres, 3).Number(row.UncertaintyMetres, 3)
                .Text(row.IsWithinLimit switch { true => "met", false => "not met", _ => "not judged" }).Text(row.IsBeyondAlert ? "yes" : "no").EndRow();
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
