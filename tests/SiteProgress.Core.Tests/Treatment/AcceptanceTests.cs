using Shouldly;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Core.Treatment;
using Xunit;

namespace SiteProgress.Core.Tests.Treatment;

public sealed class AcceptanceTests
{
    private readonly RecordedSite _site = new();

    public AcceptanceTests() => _site.Plan("A-0001", "A-0002", "A-0003");

    [Fact]
    public void A_later_record_about_an_accepted_pile_reopens_it_and_says_so()
    {
        _site.Build("A-0001");
        _site.Build("A-0002");
        _site.Accept("A-0001", "A-0002");
        _site.State("A-0001").ShouldBe(PileState.Accepted);

        long later = _site.Build("A-0001", 0.04);

        _site.State("A-0001").ShouldBe(PileState.Installed);
        _site.Treated.Find("A-0001")!.Acceptance.ShouldBeNull();
        _site.Treated.Find("A-0001")!.Reopened.ShouldNotBeNull();
        _site.State("A-0002").ShouldBe(PileState.Accepted);

        // What was signed stands again when the later record is withdrawn: the sheet is the same, to the byte.
        _site.Withdraw(later);
        _site.State("A-0001").ShouldBe(PileState.Accepted);
    }

    [Fact]
    public void A_limit_that_changes_reopens_the_piles_it_judged()
    {
        _site.Build("A-0001");
        _site.Accept("A-0001");
        _site.Add(new SettingsBody(
            Invented.Settings with { Zones = [Invented.ZoneA with { Limits = Invented.ZoneA.Limits with { RadialMetres = 0.140, Approval = "Approval 2" } }] }, null, First: false));

        _site.State("A-0001").ShouldBe(PileState.Installed);
        _site.Treated.Find("A-0001")!.Reopened.ShouldNotBeNull();
    }

    [Fact]
    public void A_change_of_settings_that_is_not_on_the_sheet_leaves_it_accepted()
    {
        _site.Build("A-0001");
        _site.Accept("A-0001");
        _site.Add(new SettingsBody(Invented.Settings with { Zones = [Invented.ZoneA with { AlertRadialMetres = 0.08 }] }, null, First: false));

        _site.State("A-0001").ShouldBe(PileState.Accepted);
    }

    [Fact]
    public void A_pile_with_a_required_check_not_judged_stays_out_of_acceptance_together()
    {
        _site.Build("A-0001");
        _site.Build("A-0002", change: built => built with { Fix = FixType.RtkFloat });

        LotSummary summary = LotSummary.Of("Selection", ["A-0001", "A-0002", "A-0003"], _site.Treated, _site.Derived.History.Settings!, []);

        summary.Ready.Select(pile => pile.Number).ShouldBe(["A-0001"]);
        summary.LeftOut.Single(pile => pile.Number == "A-0002").Readiness.ShouldBe(Readiness.OneByOne);
        summary.LeftOut.Single(pile => pile.Number == "A-0002").Reason.ShouldStartWith("Required check not judged: position.");
        summary.LeftOut.Single(pile => pile.Number == "A-0003").Reason.ShouldBe("Nothing stands for it.");
        _site.Accept("A-0002");
        _site.State("A-0002").ShouldBe(PileState.AcceptedWithConcession);
    }

    [Fact]
    public void The_sheet_that_is_signed_holds_every_check_and_the_records_it_stands_on()
    {
        long record = _site.Build("A-0001");
        Sheet sheet = _site.Treated.SheetOf("A-0001")!;

        sheet.Lines.Count(line => line.Label.StartsWith("check of ", StringComparison.Ordinal)).ShouldBe(8);
        sheet.Lines.Single(line => line.Label == "stands on record").Value.ShouldBe(record.ToString(System.Globalization.CultureInfo.InvariantCulture));
        sheet.Lines.Single(line => line.Label == "radial deviation").Value.ShouldBe("30 mm, uncertainty (95 %) 30 mm");
    }

    [Fact]
    public void The_hash_of_a_sheet_is_that_of_its_canonical_bytes()
    {
        Sheet sheet = new("a title", [new("one", "two\nlines"), new("back", "a\\b")]);

        System.Text.Encoding.UTF8.GetString(sheet.CanonicalBytes()).ShouldBe("siteprogress sheet 1\na title\none: two\\nlines\nback: a\\\\b\n");
        // printf 'siteprogress sheet 1\na title\none: two\\nlines\nback: a\\\\b\n' | sha256sum (GNU coreutils 9.1)
        sheet.Hash.ShouldBe("016d9c52937a2299cf56a012774705d2a41e4794e9afbf71a582d813609aa435");
    }

    [Fact]
    public void An_acceptance_that_is_withdrawn_leaves_the_pile_as_it_is_judged()
    {
        _site.Build("A-0001");
        _site.Accept("A-0001");
        _site.Add(new AcceptanceWithdrawnBody(["A-0001"], "the wrong pile"), "account owner");

        _site.State("A-0001").ShouldBe(PileState.Installed);
        _site.Treated.Find("A-0001")!.Reopened.ShouldBeNull();
    }

    [Fact]
    public void The_same_records_give_the_same_state_when_they_are_derived_again()
    {
        _site.Build("A-0001", 0.2);
        _site.Build("A-0002");
        int number = _site.Raise("A-0001");
        _site.Propose(number, Disposition.UseAsIs);
        _site.Decide(number);
        _site.Accept("A-0002");

        _site.Treated.SheetOf("A-0001")!.Hash.ShouldBe(_site.Treated.SheetOf("A-0001")!.Hash);
        _site.State("A-0001").ShouldBe(PileState.AcceptedWithConcession);
    }
}
