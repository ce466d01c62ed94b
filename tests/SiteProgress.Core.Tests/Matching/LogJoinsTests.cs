using NodaTime;
using Shouldly;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using Xunit;

namespace SiteProgress.Core.Tests.Matching;

/// <summary>Which installation a log is of: barge, casing and time, and what the log itself says must agree.</summary>
public sealed class LogJoinsTests
{
    private static readonly Instant Noon = Instant.FromUtc(2026, 3, 10, 12, 0);

    [Fact]
    public void A_log_is_of_the_installation_of_its_barge_casing_and_time()
        => Join(Log(1, from: -3, to: 38), [Built(10, "A-1", 0), Built(11, "A-2", 41), Built(12, "A-3", 0, casing: 2)]).ShouldBe(new LogJoin(LogJoinOutcome.Joined, 10));

    [Fact]
    public void A_log_of_another_barge_casing_or_time_is_of_none()
    {
        Join(Log(1, barge: "Plover"), [Built(10, "A-1", 0)]).Outcome.ShouldBe(LogJoinOutcome.NoInstallation);
        Join(Log(3), [Built(10, "A-1", 0)]).Outcome.ShouldBe(LogJoinOutcome.NoInstallation);
        Join(Log(1, from: 30, to: 70), [Built(10, "A-1", 0)]).Outcome.ShouldBe(LogJoinOutcome.NoInstallation);
    }

    [Fact]
    public void Half_of_the_shorter_span_is_enough_and_less_is_not()
    {
        // The installation takes 40 minutes, the log 20.
        Join(Log(1, from: 30, to: 50), [Built(10, "A-1", 0)]).Outcome.ShouldBe(LogJoinOutcome.Joined);
        Join(Log(1, from: 31, to: 51), [Built(10, "A-1", 0)]).Outcome.ShouldBe(LogJoinOutcome.NoInstallation);
    }

    [Fact]
    public void Another_pile_number_is_shown_and_not_joined()
        => Join(Log(1, number: "A-2"), [Built(10, "A-1", 0)]).ShouldBe(new LogJoin(LogJoinOutcome.NumberDisagrees, 10, "A-1"));

    [Fact]
    public void The_number_of_the_pile_that_the_installation_was_decided_to_be_agrees_too()
        => LogJoins.Of([(1, Log(1, number: "A-7"))], [Built(10, "A-1", 0)], [Match("A-7")]).ShouldHaveSingleItem().Outcome.ShouldBe(LogJoinOutcome.Joined);

    [Fact]
    public void The_identifier_of_another_installation_is_shown_and_not_joined()
    {
        LocatedInstallation[] both = [Built(10, "A-1", 0), Built(11, "A-2", 50)];
        Join(Log(1, record: "R-11"), both).ShouldBe(new LogJoin(LogJoinOutcome.RecordDisagrees, 10, "R-10"));
        Join(Log(1, record: "the logger's own"), both).Outcome.ShouldBe(LogJoinOutcome.Joined);
    }

    [Fact]
    public void A_log_without_a_casing_is_joined_where_its_number_names_one_of_several_and_else_not()
    {
        LocatedInstallation[] both = [Built(10, "A-1", 0), Built(11, "A-2", 2, casing: 2)];
        Join(Log(null), both).ShouldBe(new LogJoin(LogJoinOutcome.SeveralInstallations, null, "2"));
        Join(Log(null, number: "A-2"), both).ShouldBe(new LogJoin(LogJoinOutcome.Joined, 11));
    }

    [Fact]
    public void Of_two_logs_of_one_installation_the_one_recorded_later_counts()
        => LogJoins.Of([(21, Log(1)), (20, Log(1, from: 1))], [Built(10, "A-1", 0)], [Match("A-1")]).Select(join => join.Outcome)
            .ShouldBe([LogJoinOutcome.Joined, LogJoinOutcome.Superseded]);

    private static LogJoin Join(LoggedPile log, LocatedInstallation[] installations)
        => LogJoins.Of([(1, log)], installations, [.. installations.Select(one => Match(one.Recorded.PileNumber))]).ShouldHaveSingleItem();

    private static InstallationMatch Match(string pile) => new(MatchOutcome.Matched, pile, pile, 0, 0, null);

    private static LoggedPile Log(int? casing, int from = 0, int to = 40, string? number = null, string? record = null, string barge = "tern")
        => new(record, number, barge, casing, Noon + Duration.FromMinutes(from), Noon + Duration.FromMinutes(to), 100, new string('a', 64));

    private static LocatedInstallation Built(long sequence, string number, int minute, int casing = 1)
    {
        Instant start = Noon + Duration.FromMinutes(minute);
        return Invented.Located(
            Invented.Built(number, 0, 0) with { RecordId = $"R-{sequence}", Casing = casing, Start = start, EndOfPenetration = start + Duration.FromMinutes(10), End = start + Duration.FromMinutes(40) }, sequence);
    }
}
