using Shouldly;
using SiteProgress.Jobs.Access;
using Xunit;

namespace SiteProgress.Jobs.Tests.Access;

/// <summary>The table of roles of the design, written out a second time.</summary>
public sealed class RoleRightsTests
{
    private static readonly Dictionary<Right, Role[]> Table = new()
    {
        [Right.See] = [Role.OwnersRepresentative, Role.ProjectManager, Role.Surveyor, Role.Administrator],
        [Right.BringIn] = [Role.ProjectManager, Role.Surveyor],
        [Right.Propose] = [Role.ProjectManager, Role.Surveyor],
        [Right.Comment] = [Role.OwnersRepresentative, Role.ProjectManager, Role.Surveyor],
        [Right.Decide] = [Role.OwnersRepresentative],
        [Right.SubmitLots] = [Role.ProjectManager, Role.Surveyor],
        [Right.ApproveLimits] = [Role.OwnersRepresentative],
        [Right.ReviseDesign] = [Role.ProjectManager],
        [Right.KeepSurvey] = [Role.Surveyor],
        [Right.ChangeSettings] = [Role.Administrator],
        [Right.ManagePeople] = [Role.Administrator],
    };

    [Fact]
    public void Each_right_is_held_by_exactly_the_roles_of_the_table()
    {
        Table.Keys.ShouldBe(Enum.GetValues<Right>(), ignoreOrder: true);
        foreach (Right right in Enum.GetValues<Right>())
        {
            Enum.GetValues<Role>().Where(role => RoleRights.Holds(role, right)).ShouldBe(Table[right], ignoreOrder: true, right.ToString());
        }
    }

    [Fact]
    public void A_number_that_is_no_role_holds_nothing()
        => Enum.GetValues<Right>().ShouldAllBe(right => !RoleRights.Holds((Role)99, right));

    [Fact]
    public void Every_role_and_right_has_words()
    {
        foreach (Role role in Enum.GetValues<Role>()) RoleWords.Of(role).ShouldNotBeNullOrWhiteSpace();
        foreach (Right right in Enum.GetValues<Right>()) RoleWords.Of(right).ShouldNotBeNullOrWhiteSpace();
        RoleWords.Choices.Split(", ").Select(RoleWords.Read).ShouldBe(Enum.GetValues<Role>().Cast<Role?>(), ignoreOrder: true);
        RoleWords.Read("captain").ShouldBeNull();
    }
}
