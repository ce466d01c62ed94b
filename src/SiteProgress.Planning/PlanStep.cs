namespace SiteProgress.Planning;

/// <summary>What the making of a plan is at, in order.</summary>
public enum PlanStep
{
    /// <summary>Every position of the barge worth considering.</summary>
    Positions = 1,

    /// <summary>The fewest set-ups, whatever the anchors cost.</summary>
    SetUpsFreely,

    /// <summary>The fewest layings of the anchors.</summary>
    Layings,

    /// <summary>Layings that hold the fewest set-ups, and layings moved so that they cut few of them.</summary>
    LayingsMoved,

    /// <summary>The fewest set-ups within the layings.</summary>
    SetUpsWithin,

    /// <summary>Neighbouring layings and their set-ups laid anew together while that saves time.</summary>
    Together,

    /// <summary>A short order, and the same work row by row beside it.</summary>
    InOrder,
}
