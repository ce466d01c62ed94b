using SiteProgress.Core.Coordinates;
using SiteProgress.Core.SetUps;

namespace SiteProgress.Planning;

/// <summary>
/// The same work without a plan: fields as large as the anchors' reach laid side by side over the work, each with piles left taken one
/// after the other, and within it row by row on the first heading, from the first pile left.
/// </summary>
internal static class RowByRow
{
    public static PlanEffort Of(BargePlanRequest request)
    {
        double left = request.Piles.Min(pile => pile.Position.XMetres), low = request.Piles.Min(pile => pile.Position.YMetres);
        int anchors = 0, setUps = 0;
        foreach (IGrouping<(int, int), OpenPile> field in request.Piles.GroupBy(pile => (
            (int)Math.Floor((pile.Position.XMetres - left + 0.001) / request.Reach.AlongMetres), (int)Math.Floor((pile.Position.YMetres - low + 0.001) / request.Reach.AcrossMetres))))
        {
            anchors++;
            SetUpProblem problem = new([.. field], request.Barge.Casings, [request.HeadingsDegrees[0]], request.FitMetres);
            setUps += QuickCover.RowByRow(problem, SetUpCandidates.Of(problem), request.HeadingsDegrees[0]).Count;
        }

        return BargePlanner.Effort(request, anchors, setUps);
    }
}
