using Shouldly;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Core.Treatment;
using Xunit;

namespace SiteProgress.Core.Tests.Treatment;

/// <summary>
/// A sand account over the site's limit is a finding like any other: gathered, proposed, decided, and re-opened by what changes it.
/// Two piles of 71.5 m3 by their records stand against 100 m3 of the account: 43 m3 or 30.07 % too much, where 5 % is allowed.
/// </summary>
public sealed class SandAccountFindingTests
{
    private readonly RecordedSite _site = new(sand: new SandAgreement(WeekRatio: 0.05));

    public SandAccountFindingTests()
    {
        _site.Plan("A-0001", "A-0002");
        _site.Build("A-0001");
        _site.Build("A-0002");
        _site.Sand((0, SandEntry.StockMeasured, 20), (0, SandEntry.Delivered, 100), (7, SandEntry.StockMeasured, 20));
    }

    [Fact]
    public void It_is_a_finding_with_its_numbers_until_it_is_gathered_and_no_pile_is_touched_by_it()
    {
        FindingShown finding = _site.Treated.FreeAccountFindings().Single();
        (finding.Pile, finding.Check, finding.Account!.Barge).ShouldBe(("", CheckName.SandAccount, "Tern"));
        finding.Line.ShouldBe("not met: 43.0 m³ loose, 0.3007 of what the records used, limit 0.0500; by account 100.0 m³, by 2 records 143.0 m³");

        Raise();

        _site.Treated.FreeAccountFindings().ShouldBeEmpty();
        _site.One(1).Piles().ShouldBeEmpty();
        _site.One(1).Accounts().Single().InWords().ShouldBe("Tern, Pit 1, 2026-03-09T05:00Z to 2026-03-16T05:00Z");
        _site.State("A-0001").ShouldBe(PileState.Installed);
        _site.Treated.ReadinessOf("A-0001").Readiness.ShouldBe(Readiness.Ready);
    }

    [Fact]
    public void A_load_written_down_later_takes_it_away_and_its_closure_waits_to_be_verified()
    {
        Raise();
        _site.Sand((3, SandEntry.Delivered, 42));

        _site.One(1).FindingsGone.ShouldBeTrue();
        _site.One(1).Stage.ShouldBe(Stage.ToVerify);
        _site.Verify(1);
        _site.One(1).Stage.ShouldBe(Stage.Closed);
        _site.Treated.FreeAccountFindings().ShouldBeEmpty();
    }

    [Fact]
    public void A_difference_taken_as_explained_is_taken_for_what_was_shown_and_for_nothing_else()
    {
        Raise();
        _site.Propose(1, Disposition.UseAsIs);
        _site.Decide(1);
        _site.One(1).Stage.ShouldBe(Stage.Closed);

        _site.Sand((4, SandEntry.Wasted, 30));

        _site.One(1).Stage.ShouldBe(Stage.Reopened);
        _site.One(1).Reopened!.ShouldContain("sand account of Tern, Pit 1, 2026-03-09T05:00Z to 2026-03-16T05:00Z was 'not met: 43.0 m³");
        _site.One(1).Reopened!.ShouldContain("73.0 m³");
    }

    [Fact]
    public void A_stock_measured_in_between_parts_the_account_and_the_new_ones_are_findings_of_their_own()
    {
        Raise();
        _site.Sand((2, SandEntry.StockMeasured, 10));

        _site.One(1).Findings.Single().Now.ShouldBe("no account runs between these two stocks any more");
        _site.One(1).FindingsGone.ShouldBeFalse();
        _site.Treated.FreeAccountFindings().Count().ShouldBe(2);
    }

    private void Raise() => _site.Add(new NonConformanceRaisedBody(1, [.. _site.Treated.FreeAccountFindings()], "more sand in the piles than came", null));
}
