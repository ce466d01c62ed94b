namespace SiteProgress.Core.Piles;

/// <summary>Where a planned pile stands. The numbers are stable: they travel to the map.</summary>
public enum PileState
{
    /// <summary>Planned, and no installation stands for it.</summary>
    Outstanding = 0,

    /// <summary>Installed, but a required check is not judged.</summary>
    IncompleteRecord = 1,

    /// <summary>Installed, all required checks met, not yet signed.</summary>
    Installed = 2,

    /// <summary>Installed, and a check is not met.</summary>
    Finding = 3,

    /// <summary>Findings under treatment.</summary>
    NonConformance = 4,

    /// <summary>Accepted by the owner's representative.</summary>
    Accepted = 5,

    /// <summary>Accepted with a concession.</summary>
    AcceptedWithConcession = 6,

    /// <summary>To be built again.</summary>
    BuildAgain = 7,

    /// <summary>Taken out of the design.</summary>
    Cancelled = 8,
}
