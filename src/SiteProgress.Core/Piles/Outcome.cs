namespace SiteProgress.Core.Piles;

/// <summary>How one attempt at a pile ended, as its crew recorded it.</summary>
public enum Outcome
{
    /// <summary>Built from tip to top.</summary>
    Complete = 1,

    /// <summary>The ground stopped the casing; the pile was built from where it stopped.</summary>
    Refused = 2,

    /// <summary>Stopped on the way up; the part below stands.</summary>
    Interrupted = 3,

    /// <summary>Given up; nothing of it stands for the pile.</summary>
    Abandoned = 4,

    /// <summary>Built complete, at another place than designed, because the owner's side instructed so.</summary>
    OffsetByInstruction = 5,

    /// <summary>A trial pile, outside the design.</summary>
    Trial = 6,
}
