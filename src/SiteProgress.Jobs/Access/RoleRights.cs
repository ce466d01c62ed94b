namespace SiteProgress.Jobs.Access;

/// <summary>Which role holds which right. The only place that says so.</summary>
public static class RoleRights
{
    private static readonly Dictionary<Role, HashSet<Right>> Held = new()
    {
        [Role.OwnersRepresentative] = [Right.See, Right.Comment, Right.Decide, Right.ApproveLimits],
        [Role.ProjectManager] =
            [Right.See, Right.BringIn, Right.Propose, Right.Comment, Right.SubmitLots, Right.ReviseDesign],
        [Role.Surveyor] =
            [Right.See, Right.BringIn, Right.Propose, Right.Comment, Right.SubmitLots, Right.KeepSurvey],
        [Role.Administrator] = [Right.See, Right.ChangeSettings, Right.ManagePeople],
    };

    /// <summary>True when the role holds the right.</summary>
    public static bool Holds(Role role, Right right) => Held.TryGetValue(role, out HashSet<Right>? rights) && rights.Contains(right);
}
