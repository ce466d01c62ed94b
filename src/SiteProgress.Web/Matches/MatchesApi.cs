using SiteProgress.Core.Matching;
using SiteProgress.Jobs.Matches;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Matches;

/// <summary>Waiting matches and decisions on them for programs, by the jobs the page uses.</summary>
internal sealed class MatchesApi : IEndpoints
{
    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
    {
        api.MapGet("/sites/{site}/matches", (HttpContext http, string site, ReadWaitingMatches job) =>
            Api.AskAsync(http, site, async (permit, cancellation) => Results.Ok(Answer.Of(await job.RunAsync(permit, cancellation)))))
            .WithName("Matches").WithSummary("Installations whose pile a person has to decide, with what can be chosen for each, and the decisions made.").Produces<Answer>().ProducesProblem(404);
        api.MapPost("/sites/{site}/matches", (HttpContext http, string site, Request sent, DecideMatches job) =>
            Api.AskAsync(http, site, async (permit, cancellation) =>
                await job.RunAsync(permit, [.. (sent.Matches ?? []).OfType<AskedMatch>()], sent.Reason ?? "", cancellation) is { } refusal
                    ? Results.Problem(statusCode: 409, detail: refusal) : Results.NoContent()))
            .WithName("DecideMatches").WithSummary("Decides which piles installations are: all of the list, or nothing. Answers: byPosition, byNumber, byNumberReadAnew, another with a pile, setAside.")
            .Produces(204).ProducesProblem(404).ProducesProblem(409);
    }

    private sealed record Request(IReadOnlyList<AskedMatch?>? Matches, string? Reason);

    private sealed record Answer(IReadOnlyList<Waiting> Waiting, IReadOnlyList<Decided> Decisions, long RecordSequence)
    {
        public static Answer Of(WaitingMatches read) => new(
            [.. read.Groups.SelectMany(group => group.Records.Select(one => new Waiting(
                one.Installation.Located.Sequence, group.Batch, one.Installation.Located.Recorded.PileNumber, group.Outcome, one.Installation.Match.Nearest,
                one.Installation.Located.Position?.XMetres, one.Installation.Located.Position?.YMetres, one.Installation.Match.DistanceToNamedMetres, one.Installation.Match.DistanceToNearestMetres, group.Proposed,
                [.. one.Answers.Select(each => new Choice(each.Answer, each.Pile))])))],
            [.. read.Decisions.Select(line => new Decided(line.Decision.Sequence, line.By, line.Decision.Body.Reason, line.Decision.Withdrawal is not null, line.Decision.Body.Choices.Count))],
            read.RecordSequence);
    }

    private sealed record Waiting(
        long Installation, long Batch, string RecordedNumber, MatchOutcome Outcome, string? LiesAt,
        double? SiteFirstMetres, double? SiteSecondMetres, double? DistanceToNamedMetres, double? DistanceToNearestMetres,
        MatchAnswer? Proposed, IReadOnlyList<Choice> Choices);

    private sealed record Choice(MatchAnswer Answer, string? Pile);

    private sealed record Decided(long Record, string By, string Reason, bool Withdrawn, int Installations);
}
