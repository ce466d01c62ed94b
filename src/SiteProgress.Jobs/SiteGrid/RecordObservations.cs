using System.Globalization;
using System.Text;
using NodaTime;
using SiteProgress.Core.Records;
using SiteProgress.Exchange;
using SiteProgress.Exchange.ControlPoints;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.SiteGrid;

/// <summary>Records a list of observations of control points: all of them in one transaction, or none.</summary>
public sealed class RecordObservations(SiteRecorder recorder, SiteHistories histories, TimeProvider clock)
{
    /// <summary>Records a list.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="list">The list as text, with a header.</param>
    /// <param name="cancellation">Stops the work; nothing is recorded then.</param>
    /// <returns>Empty when all were recorded; else what stands against it, by line.</returns>
    [Needs(Right.KeepSurvey)]
    public async Task<IReadOnlyList<string>> RunAsync(Permit permit, string list, CancellationToken cancellation)
    {
        permit.Demand(Right.KeepSurvey);
        ArgumentNullException.ThrowIfNull(list);
        if (list.Length > ProposeAdjustment.MostCharacters) return [$"The list is longer than {ProposeAdjustment.MostCharacters} characters."];
        Instant now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        SiteHistory before = await histories.ReadAsync(permit.Site, cancellation);
        using MemoryStream text = new(Encoding.UTF8.GetBytes(list));
        TableReading<ObservedControlPoint> reading = ControlPointObservationReader.Read(
            text, ReadingChoices.For(before, now) with { MostRows = ProposalWork.MostMarks, MostProblems = 200 }, cancellation);
        if (reading.ProblemCount > 0) return [.. reading.Problems.Select(problem => problem.Sentence)];
        if (reading.Rows.Count == 0) return ["The list has a header and no observation below it."];

        IReadOnlyList<string> problems = [];
        await recorder.AppendAsync(
            permit,
            Right.KeepSurvey,
            history =>
            {
                problems = [.. reading.Rows.Select(row => (row.Line, Why: ObserveControlPoint.WhyNot(history, row.Value.Mark, row.Value.Position, row.Value.ObservedOn, now)))
                    .Where(row => row.Why is not null).Select(row => string.Create(CultureInfo.InvariantCulture, $"Line {row.Line}: {row.Why}"))];
                return problems.Count > 0 ? [] : [.. reading.Rows.Select(row => Body(row.Value, history.Adjustments[^1].Adjustment.Revision))];
            },
            cancellation);
        return problems;
    }

    private static ControlPointObservedBody Body(ObservedControlPoint found, int revision)
        => new(found.Mark, found.Position, revision, found.StandardDeviationMetres, found.ObservedOn, found.Method);
}
