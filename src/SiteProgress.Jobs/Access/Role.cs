namespace SiteProgress.Jobs.Access;

/// <summary>The role of a person on one site. One role per person and site.</summary>
public enum Role
{
    /// <summary>Decides, verifies, signs; approves limits.</summary>
    OwnersRepresentative = 1,

    /// <summary>Brings records in, proposes, submits lots; design revisions, diary, daily report.</summary>
    ProjectManager = 2,

    /// <summary>Brings records in, proposes; matches, corrections, site grid, calibrations, check measurements.</summary>
    Surveyor = 3,

    /// <summary>Settings, people, roles and keys.</summary>
    Administrator = 4,
}
