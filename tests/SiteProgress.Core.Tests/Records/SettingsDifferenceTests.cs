using Shouldly;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Core.Tests.Treatment;
using Xunit;

namespace SiteProgress.Core.Tests.Records;

/// <summary>What two settings of an invented site differ in, and what that changes.</summary>
public sealed class SettingsDifferenceTests
{
    private static readonly SiteSettings Was = Invented.Settings;

    [Fact]
    public void The_same_settings_differ_in_nothing_whatever_the_order_of_their_lists()
        => SettingsDifference.Between(Was, Was with { Zones = [.. Was.Zones.Reverse()], Barges = [.. Was.Barges.Reverse()] }).ShouldBeEmpty();

    [Fact]
    public void A_limit_is_the_contracts_and_an_alert_or_a_name_the_sites_own()
    {
        Zone zone = Was.Zones[0];
        SettingsChange[] changes = [.. SettingsDifference.Between(Was, Was with
        {
            Name = "another name",
            Zones = [zone with { Limits = zone.Limits with { RadialMetres = 0.125 }, AlertRadialMetres = 0.08 }, .. Was.Zones.Skip(1)],
        })];

        changes.Select(change => (change.What, change.Now, change.IsContract)).ShouldBe(
        [
            ("name", "another name", false),
            ($"zone {zone.Code}, limits, radial metres", "0.125", true),
            ($"zone {zone.Code}, alert radial metres", "0.08", false),
        ]);
    }

    [Fact]
    public void A_barge_that_comes_is_told_whole_and_is_the_sites_own_while_a_zone_that_comes_is_the_contracts()
    {
        Barge added = Was.Barges[0] with { Name = "Plover" };
        SettingsChange barge = SettingsDifference.Between(Was, Was with { Barges = [.. Was.Barges, added] }).ShouldHaveSingleItem();
        (barge.What, barge.Was, barge.IsContract).ShouldBe(("barge Plover", null, false));

        SettingsDifference.Between(Was, Was with { Zones = [.. Was.Zones, Was.Zones[0] with { Code = "Z" }] }).ShouldHaveSingleItem().IsContract.ShouldBeTrue();
    }

    [Fact]
    public void Approved_settings_are_in_force_and_a_refused_or_overtaken_proposal_is_not()
    {
        RecordedSite site = new();
        SiteSettings inForce = site.Derived.History.Settings!, tighter = Tighter(inForce, 0.01);
        long refused = site.Add(new SettingsProposedBody(tighter, "as agreed", 1));
        site.Add(new SettingsDecidedBody(refused, false, "not agreed", "x"));
        site.Derived.History.Settings!.Zones[0].Limits.RadialMetres.ShouldBe(inForce.Zones[0].Limits.RadialMetres);

        long approved = site.Add(new SettingsProposedBody(tighter, "as agreed", 1)), other = site.Add(new SettingsProposedBody(Tighter(inForce, 0.02), "or so", 1));
        long decision = site.Add(new SettingsDecidedBody(approved, true, "agreed", "x"));
        site.Add(new SettingsDecidedBody(other, true, "too late", "x"));

        SiteHistory history = site.Derived.History;
        history.Settings!.Zones[0].Limits.RadialMetres.ShouldBe(0.01);
        history.SettingsSince.ShouldBe(decision);
        history.SettingsProposals.Select(one => (one.Decision?.Body.Approved, one.Overtaken)).ShouldBe([(false, null), (true, null), (null, decision)]);
    }

    [Fact]
    public void A_tighter_limit_changes_the_state_of_the_piles_beyond_it_and_no_other()
    {
        RecordedSite site = new();
        site.Plan("A-0001", "A-0002", "A-0003");
        site.Build("A-0001", offMetres: 0.03);
        site.Build("A-0002", offMetres: 0.001);

        SettingsEffect effect = SettingsEffect.Of(site.Derived, Tighter(site.Derived.History.Settings!, 0.01));

        effect.PlannedPiles.ShouldBe(3);
        PileChange changed = effect.Piles.ShouldHaveSingleItem();
        (changed.Number, changed.StateNow, changed.StateThen).ShouldBe(("A-0001", PileState.Installed, PileState.Finding));
        changed.Verdicts.ShouldBe([CheckName.Position]);
    }

    private static SiteSettings Tighter(SiteSettings settings, double radialMetres) => settings with
    {
        Zones = [.. settings.Zones.Select(zone => zone with { Limits = zone.Limits with { RadialMetres = radialMetres } })],
    };
}
