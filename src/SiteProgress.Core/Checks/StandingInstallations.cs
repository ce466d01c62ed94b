using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Checks;

/// <summary>
/// Which attempts a pile stands on, and for which levels. The last attempt that reached the top stands for all it built;
/// an interrupted attempt before it stands for what the later one did not build again. Where no attempt reached the top,
/// the interrupted ones stand for what they built; after abandoned ones alone nothing stands. (Common practice, no source.)
/// </summary>
public static class StandingInstallations
{
    /// <summary>The parts a pile stands on, lowest first; empty when nothing stands.</summary>
    /// <param name="attempts">All attempts adopted for the pile, any order.</param>
    public static IReadOnlyList<StandingPart> Of(IEnumerable<LocatedInstallation> attempts)
    {
        LocatedInstallation[] inOrder = attempts
            .OrderBy(attempt => attempt.Recorded.End ?? attempt.Recorded.EndOfPenetration ?? attempt.Recorded.Start)
            .ThenBy(attempt => attempt.Sequence)
            .ToArray();
        int last = Array.FindLastIndex(inOrder, ReachedTheTop);
        if (last < 0) last = Array.FindLastIndex(inOrder, attempt => attempt.Recorded.Outcome == Outcome.Interrupted);
        if (last < 0) return [];
        List<StandingPart> parts = [Whole(inOrder[last])];
        double? builtDownTo = parts[0].FromLevelMetres;
        for (int index = last - 1; index >= 0 && inOrder[index].Recorded.Outcome == Outcome.Interrupted; index--)
        {
            StandingPart below = Below(inOrder[index], builtDownTo);
            if (below.LengthMetres is not > 0) continue;
            parts.Add(below);
            builtDownTo = below.FromLevelMetres;
        }

        parts.Reverse();
        return parts;
    }

    private static bool ReachedTheTop(LocatedInstallation attempt)
        => attempt.Recorded.Outcome is Outcome.Complete or Outcome.Refused or Outcome.OffsetByInstruction;

    private static StandingPart Whole(LocatedInstallation attempt)
        => new(attempt, attempt.Recorded.TipLevelMetres, attempt.Recorded.TopLevelMetres);

    private static StandingPart Below(LocatedInstallation attempt, double? levelMetres)
        => new(
            attempt,
            attempt.Recorded.TipLevelMetres,
            levelMetres < attempt.Recorded.TopLevelMetres ? levelMetres : attempt.Recorded.TopLevelMetres);
}
