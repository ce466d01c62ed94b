namespace SiteProgress.Jobs.Access;

/// <summary>Roles and rights as people read and type them.</summary>
public static class RoleWords
{
    /// <summary>The role in words, such as "owner's representative".</summary>
    public static string Of(Role role) => role switch
    {
        Role.OwnersRepresentative => "owner's representative",
        Role.ProjectManager => "project manager",
        Role.Surveyor => "surveyor",
        Role.Administrator => "administrator",
        _ => throw new ArgumentOutOfRangeException(nameof(role), role, "unknown role"),
    };

    /// <summary>What the right lets a person do, to follow "may not".</summary>
    public static string Of(Right right) => right switch
    {
        Right.See => "see this site",
        Right.BringIn => "bring records in or withdraw batches",
        Right.Propose => "propose corrections or dispositions",
        Right.Comment => "raise or comment",
        Right.Decide => "decide, sign or release",
        Right.SubmitLots => "submit lots",
        Right.ApproveLimits => "approve limits",
        Right.ReviseDesign => "revise the design, keep the diary or issue the daily report",
        Right.KeepSurvey => "adopt matches, correct records or keep the site grid, calibrations and check measurements",
        Right.ChangeSettings => "change the settings of the site",
        Right.ManagePeople => "grant or withdraw roles",
        _ => throw new ArgumentOutOfRangeException(nameof(right), right, "unknown right"),
    };

    /// <summary>The role typed as on the command line, such as <c>owners-representative</c>; null when there is no such role.</summary>
    public static Role? Read(string text) => text.Trim().ToLowerInvariant() switch
    {
        "owners-representative" => Role.OwnersRepresentative,
        "project-manager" => Role.ProjectManager,
        "surveyor" => Role.Surveyor,
        "administrator" => Role.Administrator,
        _ => null,
    };

    /// <summary>What <see cref="Read"/> understands, for messages.</summary>
    public static string Choices => "owners-representative, project-manager, surveyor, administrator";

    /// <summary>The sentence a person reads when their role lacks the right.</summary>
    public static string Refusal(AccessRefusedException refused)
        => refused.Because ?? $"As {Of(refused.Role)} of this site you may not {Of(refused.Right)}.";
}
