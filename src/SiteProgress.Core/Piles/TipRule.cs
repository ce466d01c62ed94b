namespace SiteProgress.Core.Piles;

/// <summary>What decides that the tip of a pile is deep enough.</summary>
public enum TipRule
{
    /// <summary>The designed tip level is reached.</summary>
    Level = 1,

    /// <summary>The stop criterion is met (penetration rate below a stated value) at not less than the least length.</summary>
    Criterion = 2,

    /// <summary>Level and criterion both.</summary>
    Both = 3,
}
