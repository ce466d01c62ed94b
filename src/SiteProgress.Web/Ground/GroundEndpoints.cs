using Microsoft.AspNetCore.Mvc;
using SiteProgress.Core.Ground;
using SiteProgress.Exchange;
using SiteProgress.Jobs.Ground;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Ground;

/// <summary>The improved ground for programs and as tables.</summary>
internal sealed class GroundEndpoints : IEndpoints
{
    /// <summary>The ground of a site. Piles and squares one by one are in the tables.</summary>
    internal sealed record Answer(long RecordSequence, IReadOnlyList<ZoneLine> Zones, IReadOnlyList<SpotLine> WeakSpots, IReadOnlyList<SurveyName> Surveys, IReadOnlyList<HeaveLine> Heave, IReadOnlyList<BlowLine> Blows);

    /// <summary>Replacement ratio of a zone.</summary>
    internal sealed record ZoneLine(string Zone, double DesignRatio, int Standing, int Known, double? MeanRatio, string? LeastAt, double? LeastRatioAround, int WeakPiles);

    /// <summary>A weak spot.</summary>
    internal sealed record SpotLine(string Zone, IReadOnlyList<string> Piles, double? LeastRatioAround);

    /// <summary>Heave of a zone between the two surveys.</summary>
    internal sealed record HeaveLine(
        string Zone, string Before, string After, double? MeanMetres, double VolumeCubicMetres, double CoveredRatio, int Piles, double SandInPileCubicMetres, double? UpheavalRatio, double? ExpectedRatio, bool IsWithinItsRange, double? UncertaintyMetres);

    /// <summary>Blow counts of a step of level.</summary>
    internal sealed record BlowLine(string Zone, double TopLevelMetres, double BottomLevelMetres, IReadOnlyList<int> Before, IReadOnlyList<int> After, double? LeastAsked, double? Expected);

    /// <inheritdoc />
    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
    {
        api.MapGet("/sites/{site}/ground", (HttpContext http, string site, [AsParameters] Asked asked, ReadGround read) => AskAsync(http, site, asked, read, (_, view) => Results.Ok(Of(view))))
            .Produces<Answer>().WithName("Ground").WithSummary("How the ground was improved: replacement ratio as built by zone, weak spots, heave between two seabed surveys, blow counts before and after (share in percent, square and step in metres, weight in kN/m3, fines in percent).");
        Table(api, "piles", "GroundPiles", "Replacement ratio of every pile that stands, as a table.", Piles);
        Table(api, "heave", "GroundHeave", "Heave of the seabed, square by square, as a table.", Heave);
        Table(api, "blows", "GroundBlows", "Penetration tests before and after the piles, as a table.", Blows);
    }

    private static void Table(RouteGroupBuilder api, string what, string name, string summary, Action<TableWriter, GroundView> write)
        => api.MapGet($"/sites/{{site}}/ground/{what}.csv", (HttpContext http, string site, [AsParameters] Asked asked, ReadGround read) =>
                AskAsync(http, site, asked, read, (code, view) => TableAnswer.Of($"{code}-ground-{what}.csv", write, view)))
            .Produces<string>(contentType: TableAnswer.ContentType).WithName(name).WithSummary(summary);

    private static Task<IResult> AskAsync(HttpContext http, string site, Asked asked, ReadGround read, Func<string, GroundView, IResult> answer)
        => asked.Query.Refusal is { } refusal
            ? Task.FromResult(refusal)
            : Api.AskAsync(http, site, async (permit, cancellation) => await read.RunAsync(permit, asked.Query.Request, cancellation) is { } view ? answer(permit.SiteCode, view) : Results.NotFound());

    private static Answer Of(GroundView view) => new(
        view.RecordSequence,
        [.. view.Replacement.Zones.Select(zone => new ZoneLine(zone.Design.Zone, zone.Design.Ratio, zone.Standing, zone.Known, zone.Mean, zone.Least?.Pile.Number, zone.Least?.RatioAround, zone.Weak))],
        [.. view.Replacement.Spots.Select(spot => new SpotLine(spot.Zone, [.. spot.Piles.Select(pile => pile.Pile.Number)], spot.Weakest.RatioAround))],
        view.Surveys,
        [.. (view.Heave?.Zones ?? []).Select(zone => new HeaveLine(
            zone.Zone, view.Heave!.Before.Key, view.Heave.After.Key, zone.Review.MeanMetres, zone.Review.VolumeCubicMetres, zone.Review.CoveredRatio, zone.Piles, zone.SandInPile, zone.UpheavalRatio, zone.ExpectedRatio, zone.IsWithinItsRange, zone.UncertaintyMetres))],
        [.. view.Blows.Steps.Select(step => new BlowLine(step.Step.Zone, step.Step.TopLevelMetres, step.Step.BottomLevelMetres, step.Step.Before, step.Step.After, step.LeastAsked, step.Expected?.Blows))]);

    private static void Piles(TableWriter table, GroundView view)
    {
        table.Header("Pile No", "Zone", "X [m]", "Y [m]", "Position as built", "Section [m2]", "Ground [m2]", "a_s", "a_s with neighbours", "Design a_s", "Neighbours not built", "Weak");
        Dictionary<string, double> design = view.Settings.Zones.ToDictionary(zone => zone.Code, zone => zone.ReplacementRatio, StringComparer.OrdinalIgnoreCase);
        foreach (PileReplacement one in view.Replacement.Piles)
        {
            table.Text(one.Pile.Number).Text(one.Pile.Zone).Number(one.Pile.At.XMetres, 3).Number(one.Pile.At.YMetres, 3).Text(one.Pile.PositionIsJudged ? "yes" : "no")
                .Number(one.Pile.SectionSquareMetres, 4).Number(one.Area.AreaSquareMetres, 4).Number(one.Ratio, 4).Number(one.RatioAround, 4).Number(design[one.Pile.Zone], 4)
                .Whole(one.OpenNeighbours).Text(one.RatioAround is null ? "not judged" : one.IsWeak ? "yes" : "no").EndRow();
        }
    }

    private static void Heave(TableWriter table, GroundView view)
    {
        table.Header("Zone", "X [m]", "Y [m]", "Level before [m]", "Level after [m]", "Heave [m]", "Soundings");
        foreach ((string zone, HeaveSquare square) in (view.Heave?.Zones ?? []).SelectMany(zone => zone.Review.Squares.Select(square => (zone.Zone, square))))
            table.Text(zone).Number(square.Middle.XMetres, 2).Number(square.Middle.YMetres, 2).Number(square.BeforeMetres, 3).Number(square.AfterMetres, 3).Number(square.HeaveMetres, 3).Whole(square.Soundings).EndRow();
    }

    private static void Blows(TableWriter table, GroundView view)
    {
        table.Header("Borehole", "X [m]", "Y [m]", "Level [m]", "N", "As reported", "Tested on", "Nearest pile", "Zone", "Against the pile");
        foreach (TestBesidePile one in view.Blows.Tests)
        {
            table.Text(one.Test.Test.Location).Number(one.Test.At?.XMetres, 2).Number(one.Test.At?.YMetres, 2).Number(one.Test.LevelMetres, 2).Whole(one.Test.Test.Blows).Text(one.Test.Test.Reported)
                .Text(one.Test.Test.TestedOn is { } day ? ShowDay.InAddress(day.ToDateOnly()) : null).Text(one.Pile?.Number).Text(one.Pile?.Zone).Text(GroundWords.Of(one)).EndRow();
        }
    }

    /// <summary>The parts of an address.</summary>
    internal sealed record Asked(
        [FromQuery(Name = "share")] string? Share, [FromQuery(Name = "square")] string? Square, [FromQuery(Name = "step")] string? Step, [FromQuery(Name = "before")] string? Before,
        [FromQuery(Name = "after")] string? After, [FromQuery(Name = "weight")] string? Weight, [FromQuery(Name = "fines")] string? Fines)
    {
        public GroundQuery Query => new(Share, Square, Step, Before, After, Weight, Fines, null);
    }
}
