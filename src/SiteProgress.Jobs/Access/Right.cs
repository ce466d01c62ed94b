namespace SiteProgress.Jobs.Access;

/// <summary>What a job asks for before it does anything.</summary>
public enum Right
{
    /// <summary>See the site.</summary>
    See = 1,

    /// <summary>Bring records in and withdraw batches.</summary>
    BringIn,

    /// <summary>Propose corrections and dispositions.</summary>
    Propose,

    /// <summary>Raise and comment.</summary>
    Comment,

    /// <summary>Decide, verify closure, sign, release hold points.</summary>
    Decide,

    /// <summary>Submit lots.</summary>
    SubmitLots,

    /// <summary>Approve revisions of limits.</summary>
    ApproveLimits,

    /// <summary>Revise the design, keep the diary, issue the daily report.</summary>
    ReviseDesign,

    /// <summary>Adopt matches, correct records, keep site grid, calibrations and check measurements.</summary>
    KeepSurvey,

    /// <summary>Change the settings of the site.</summary>
    ChangeSettings,

    /// <summary>Grant and withdraw roles; keep keys.</summary>
    ManagePeople,
}
