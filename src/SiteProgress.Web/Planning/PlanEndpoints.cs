using Microsoft.AspNetCore.Mvc;
using SiteProgress.Core.SetUps;
using SiteProgress.Exchange;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Planning;
using SiteProgress.Planning;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Planning;

/// <summary>The plan for a barge for programs, as a table and as GeoJSON.</summary>
internal sealed class PlanEndpoints : IEndpoints
{
    /// <inheritdoc />
    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
    {
        api.MapGet("/sites/{site}/plan", (HttpContext http, string site, [AsParameters] Asked asked, PlanBarge plan) => AskAsync(http, site, asked, plan, (_, answer) => answer))
            .Produces<PlanBarge.Answer>().WithName("Plan").WithSummary("A proposal for a barge's anchors and set-ups over the outstanding piles, with bounds. Not navigation advice.");
        api.MapGet("/sites/{site}/plan.csv", (HttpContext http, string site, [AsParameters] Asked asked, PlanBarge plan) =>
                AskAsync(http, site, asked, plan, (permit, answer) => answer.Plan is null ? answer : TableAnswer.Of($"{permit.SiteCode}-plan-{answer.Asked.Barge}.csv", Table, answer)))
            .Produces<string>(contentType: TableAnswer.ContentType).WithName("PlanTable").WithSummary("The same as a table, one line a casing and set-up.");
        api.MapGet("/sites/{site}/plan.geojson", (HttpContext http, string site, [AsParameters] Asked asked, PlanBarge plan) =>
                AskAsync(http, site, asked, plan, (_, answer) => answer.Plan is null ? answer : Results.Json(PlanFeatures.Of(answer), contentType: "application/geo+json")))
            .Produces<string>(contentType: "application/geo+json").WithName("PlanFeatures").WithSummary("Reach of each laying of the anchors, the way through the set-ups, and the middle of the casings of each set-up; longitude and latitude.");
    }

    private static Task<IResult> AskAsync(HttpContext http, string site, Asked asked, PlanBarge plan, Func<Permit, PlanBarge.Answer, object> make)
    {
        (PlanBarge.Request? request, string? unread) = asked.Query.Read();
        if (request is null) return Task.FromResult(Results.Problem(statusCode: StatusCodes.Status400BadRequest, detail: unread));
        return Api.AskAsync(http, site, async (permit, cancellation) =>
            await plan.RunAsync(permit, request, new SolverLimit(PlanQuery.SolverSeconds), null, cancellation) switch
            {
                null => null,
                { Problem: { } problem } => Results.Problem(statusCode: StatusCodes.Status400BadRequest, detail: problem),
                { } answer => make(permit, answer),
            });
    }

    private static void Table(TableWriter table, PlanBarge.Answer answer)
    {
        table.Header(
            "Set-up", "Anchors", "Heading against the second axis [deg]", "Casing", "Pile No", "Reference first axis [m]", "Reference second axis [m]", "Middle of casings first axis [m]",
            "Middle of casings second axis [m]", $"Anchors laid from ({answer.TimeZone})", $"Begins ({answer.TimeZone})", $"Ends ({answer.TimeZone})", "Waits before [h]", "Waits for", "Not dated because",
            "Seabed taken [m]", "Needs water level [m]", "Least under the keel [m]", "Seabed from", "Casings apart [m]");
        SiteTime time = new(answer.TimeZone);
        foreach (PlannedAnchor anchor in answer.Plan!.Anchors)
        {
            foreach (PlannedSetUp setUp in anchor.SetUps)
            {
                foreach (CasingBuilds one in setUp.Builds)
                {
                    table.Whole(setUp.Number).Whole(anchor.Number).Number(setUp.HeadingDegrees, 2).Whole(one.Casing).Text(one.Pile)
                        .Number(setUp.Reference.XMetres, 3).Number(setUp.Reference.YMetres, 3).Number(setUp.Casings.XMetres, 3).Number(setUp.Casings.YMetres, 3)
                        .Text(Minute(anchor.Laid?.Begins)).Text(Minute(setUp.Time?.Begins)).Text(Minute(setUp.Time?.Ends)).Number(setUp.Time?.WaitHours, 2).Text(setUp.Time?.WaitsFor).Text(setUp.NotDated)
                        .Number(setUp.Keel?.SeabedMetres, 2).Number(setUp.Keel?.NeedsLevelMetres, 2).Number(setUp.Keel?.LeastRoomMetres, 2).Text(setUp.Keel?.From).Number(anchor.SpacingMetres, 2).EndRow();
                }
            }
        }

        string? Minute(NodaTime.Instant? at) => at is { } moment ? time.Minute(moment) : null;
    }

    /// <summary>Parts of the address.</summary>
    internal sealed record Asked(
        string? Barge, string? Zones, string? Headings, string? Along, string? Across, [FromQuery(Name = "anchor-hours")] string? AnchorHours,
        [FromQuery(Name = "set-up-minutes")] string? SetUpMinutes, string? Clearance, string? Direction, string? Forbidden, string? Pinned, string? Begins,
        [FromQuery(Name = "hours-a-day")] string? HoursADay, string? Slack, [FromQuery(Name = "slack-lag")] string? SlackLag, [FromQuery(Name = "slack-for")] string? SlackFor,
        [FromQuery(Name = "in-slack")] string? InSlack, string? Draught, string? Keel, string? Seabed, string? Spacings, [FromQuery(Name = "change-hours")] string? ChangeHours,
        string? Sea, string? Unforeseen, string? Workable)
    {
        public PlanQuery Query => new(
            ("barge", Barge), ("zones", Zones), ("headings", Headings), ("along", Along), ("across", Across), ("anchor-hours", AnchorHours), ("set-up-minutes", SetUpMinutes),
            ("clearance", Clearance), ("direction", Direction), ("forbidden", Forbidden), ("pinned", Pinned), ("begins", Begins), ("hours-a-day", HoursADay), ("slack", Slack),
            ("slack-lag", SlackLag), ("slack-for", SlackFor), ("in-slack", InSlack), ("draught", Draught), ("keel", Keel), ("seabed", Seabed), ("spacings", Spacings),
            ("change-hours", ChangeHours), ("sea", Sea), ("unforeseen", Unforeseen), ("workable", Workable));
    }
}
