using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.WaterLevels;

namespace SiteProgress.Exchange.Tests.TextTables;

/// <summary>How crews and surveyors title their columns (common practice, no source), and what each title is taken for.</summary>
public sealed class HeaderSpellingTests
{
    private const string Numbers = "Pile No;Barge;Outcome;";

    [Theory]
    [InlineData("Pile#", "pileno", null)]
    [InlineData("PILE NR.", "pileno", null)]
    [InlineData("SCP number", "pileno", null)]
    [InlineData("Pile code", "pileno", null)]
    [InlineData("Sand pile no.", "pileno", null)]
    [InlineData("Casing nr", "casing", null)]
    [InlineData("Leg No.", "casing", null)]
    [InlineData("Start date/time", "start", null)]
    [InlineData("Time of start", "start", null)]
    [InlineData("Start (UTC)", "start", null)]
    [InlineData("Start driving", "start", null)]
    [InlineData("Toe reached", "endpenetration", null)]
    [InlineData("Time finish", "end", null)]
    [InlineData("Finished [local time]", "end", null)]
    [InlineData("Toe level", "tiplevel", "m")]
    [InlineData("TOE LEVEL (M)", "tiplevel", "m")]
    [InlineData("Tip level mCD", "tiplevel", "m")]
    [InlineData("Tip level m CD", "tiplevel", "m")]
    [InlineData("Tip level [m above CD]", "tiplevel", "m")]
    [InlineData("Tip (m) CD", "tiplevel", "m")]
    [InlineData("As-built toe level (m)", "tiplevel", "m")]
    [InlineData("Tip level (as built) [m]", "tiplevel", "m")]
    [InlineData("Final tip RL [m]", "tiplevel", "m")]
    [InlineData("tip_level_m", "tiplevel", "m")]
    [InlineData("Base elevation, mm", "tiplevel", "mm")]
    [InlineData("Tip [m]", "tiplevel", "m")]
    [InlineData("Toe", "tiplevel", "m")]
    [InlineData("Toe depth (m)", "tiplevel", "m")]
    [InlineData("Final depth [m below seabed]", "tiplevel", "m")]
    [InlineData("Top", "toplevel", "m")]
    [InlineData("Top of pile level [m]", "toplevel", "m")]
    [InlineData("Top RL", "toplevel", "m")]
    [InlineData("Tip [m below water]", "tipdepthbelowwater", "m")]
    [InlineData("Depth below water (m)", "tipdepthbelowwater", "m")]
    [InlineData("Toe depth below WL [m]", "tipdepthbelowwater", "m")]
    [InlineData("Tip depth m b.w.l.", "tipdepthbelowwater", "m")]
    [InlineData("Depth [mBWL]", "tipdepthbelowwater", "m")]
    [InlineData("Top depth below water", "topdepthbelowwater", "m")]
    [InlineData("Top (m from water level)", "topdepthbelowwater", "m")]
    [InlineData("Depth below deck [m]", "tipdepthbelowdeck", "m")]
    [InlineData("Toe from deck, cm", "tipdepthbelowdeck", "cm")]
    [InlineData("Top [m below deck]", "topdepthbelowdeck", "m")]
    [InlineData("Tip below antenna [m]", "lengthantennatotip", "m")]
    [InlineData("Sand m3", "sandincasing", "m3")]
    [InlineData("Sand/m\u00B3", "sandincasing", "m\u00B3")]
    [InlineData("Sand volume (cbm)", "sandincasing", "cbm")]
    [InlineData("Sand [m3] in casing", "sandincasing", "m3")]
    [InlineData("Sand used cu m", "sandincasing", "cu m")]
    [InlineData("Loose sand [l]", "sandincasing", "l")]
    [InlineData("Heading (true)", "headingtrue", "deg")]
    [InlineData("Heading (grid) [deg]", "headinggrid", "deg")]
    [InlineData("Hdg \u00B0", "heading", "\u00B0")]
    [InlineData("Verticality [deg]", "inclination", "deg")]
    [InlineData("Actual Easting [m]", "eastingend", "m")]
    [InlineData("As-built N (m)", "northingend", "m")]
    [InlineData("X coord", "xend", "m")]
    [InlineData("Touch-down X [m]", "xtouchdown", "m")]
    [InlineData("RTK status", "fix", null)]
    [InlineData("Pile status", "outcome", null)]
    [InlineData("Observations", "remark", null)]
    [InlineData("Work date", "date", null)]
    [InlineData("Fore draught (m)", "draughtfore", "m")]
    public void A_title_of_installations_means(string title, string meaning, string? unit)
    {
        var column = Given.Built($"Barge name;Set-up;{title}\nTern;1;\n").Header!.Columns[2];

        (column.Meaning, column.Unit).ShouldBe((meaning, unit), title);
    }

    [Theory]
    [InlineData("Design toe level (mCD)", "tiplevel", "m")]
    [InlineData("Planned top [m]", "toplevel", "m")]
    [InlineData("Theoretical easting", "easting", "m")]
    [InlineData("Pile dia. (mm)", "diameter", "mm")]
    [InlineData("Area", "zone", null)]
    [InlineData("UTM E [m]", "easting", "m")]
    [InlineData("N (m)", "northing", "m")]
    [InlineData("Min. length [m]", "minlength", "m")]
    public void A_title_of_a_schedule_means(string title, string meaning, string? unit)
    {
        var column = Given.Planned($"Pile No;Remark;{title}\nA-1;;\n").Header!.Columns[2];

        (column.Meaning, column.Unit).ShouldBe((meaning, unit), title);
    }

    [Theory]
    [InlineData("Sand delivered [m3]")]
    [InlineData("Sand in pile [m3]")]
    [InlineData("Planned easting")]
    [InlineData("Cut-off level [m]")]
    [InlineData("Seabed level [m]")]
    [InlineData("Crew")]
    public void A_title_that_means_something_else_is_not_taken_for_what_it_resembles(string title)
    {
        var reading = Given.Built($"{Numbers}{title}\nA-1;Tern;complete;1\n").WithoutProblems();

        reading.Header!.Columns[3].Meaning.ShouldBeNull();
        reading.Assumptions.ShouldContain($"Columns not used: \u201C{title}\u201D.");
        reading.Questions.ShouldContain(question => question.Kind == QuestionKind.Columns);
    }

    [Fact]
    public void A_bare_word_is_taken_marked_and_asked_about()
    {
        var reading = Given.Built($"{Numbers}Top [m];Tip [m];Sand m3\nA-1;Tern;complete;-2,5;-28,1;21,4\n").WithoutProblems();

        var built = reading.Rows.ShouldHaveSingleItem().Value;
        (built.TopLevelMetres, built.TipLevelMetres, built.SandInCasing).ShouldBe((-2.5, -28.1, 21.4));
        reading.Header!.Columns.Where(column => column.InDoubt).Select(column => column.Title).ShouldBe(["Top [m]", "Tip [m]", "Sand m3"]);
        reading.Assumptions.ShouldContain("Column \u201CSand m3\u201D is taken as Sand in casing.");
        reading.Questions.ShouldContain(question => question.Text.StartsWith("\u201CTop [m]\u201D is taken as the level of the top", StringComparison.Ordinal));
    }

    [Fact]
    public void A_bare_word_gives_way_to_a_title_that_is_sure()
    {
        var reading = Given.Built($"{Numbers}Tip;Tip level [m]\nA-1;Tern;complete;9;-28,1\n").WithoutProblems();

        reading.Rows[0].Value.TipLevelMetres.ShouldBe(-28.1);
        reading.Assumptions.ShouldContain("Columns not used: \u201CTip\u201D.");
    }

    [Fact]
    public void A_columns_own_title_goes_before_another_spelling_wherever_it_stands()
    {
        var reading = Given.Built("State;Pile No;Barge;Toe level;Outcome;Tip level\nrunning;A-1;Tern;-27;complete;-28,1\n").WithoutProblems();

        (reading.Rows[0].Value.Outcome, reading.Rows[0].Value.TipLevelMetres).ShouldBe((Outcome.Complete, -28.1));
        reading.Assumptions.ShouldContain("Columns not used: \u201CState\u201D, \u201CToe level\u201D.");
    }

    [Fact]
    public void Two_titles_that_may_both_be_one_column_are_asked_for_by_name()
        => Given.Built($"{Numbers}Toe level;Bottom level\nA-1;Tern;complete;-28;-27\n").TheProblem().Expected
            .ShouldBe("one column of Tip level; \u201CToe level\u201D may be it as well, so say what these two columns are");

    [Fact]
    public void Depths_below_water_and_deck_are_kept_as_recorded()
    {
        var water = Given.Built($"{Numbers}Tip [m below water];Top [mBWL]\nA-1;Tern;complete;30,25;4,5\n").WithoutProblems().Rows[0].Value;
        var deck = Given.Built($"{Numbers}Toe from deck [cm];Freeboard [m]\nA-1;Tern;complete;3225;2,0\n").WithoutProblems().Rows[0].Value;

        water.Depths.ShouldBe(new RecordedDepths(DepthBelow.Water, 30.25, 4.5));
        water.TipLevelMetres.ShouldBeNull();
        deck.Depths.ShouldBe(new RecordedDepths(DepthBelow.Deck, 32.25, null, 2.0));
    }

    [Fact]
    public void Depths_below_the_datum_of_the_site_are_levels_and_below_another_surface_they_are_asked_about()
    {
        var choices = Given.Choices with { LevelDatum = "CD" };
        var known = Given.Built($"{Numbers}Toe depth [m below CD]\nA-1;Tern;complete;28,1\n", choices).WithoutProblems();
        var asked = Given.Built($"{Numbers}Toe depth [m below seabed]\nA-1;Tern;complete;28,1\n", choices);

        known.Rows[0].Value.TipLevelMetres.ShouldBe(-28.1);
        known.Assumptions.ShouldContain("Tip level is counted down from CD, as the header says: level = \u2212 depth.");
        asked.IsRefused.ShouldBeTrue();
        asked.Questions.ShouldContain(question => question.Text.StartsWith("Tip level is written as a depth below seabed. Below which level", StringComparison.Ordinal));
    }

    [Fact]
    public void Units_in_a_line_of_their_own_belong_to_the_titles_above_them()
    {
        var reading = Given.Built("Pile No;Barge;Outcome;Tip level;Sand in casing\n-;;;mm;l\nA-1;Tern;complete;-28100;21500\n").WithoutProblems();

        var built = reading.Rows.ShouldHaveSingleItem().Value;
        (built.TipLevelMetres, built.SandInCasing).ShouldBe((-28.1, 21.5));
    }

    [Fact]
    public void Date_and_times_in_columns_of_their_own_go_over_midnight()
    {
        // Copenhagen is one hour ahead of UTC in March before the 29th (EU directive 2000/84/EC).
        var reading = Given.Built($"{Numbers}Date;Start;End penetration;End\nA-1;Tern;complete;10.03.2026;23:30;23:55;00:40\nA-2;Tern;complete;11.03.2026;01:10;01:30;02:00\n").WithoutProblems();

        var (first, second) = (reading.Rows[0].Value, reading.Rows[1].Value);
        first.Start.ShouldBe(Instant.FromUtc(2026, 3, 10, 22, 30));
        first.EndOfPenetration.ShouldBe(Instant.FromUtc(2026, 3, 10, 22, 55));
        first.End.ShouldBe(Instant.FromUtc(2026, 3, 10, 23, 40));
        second.Start.ShouldBe(Instant.FromUtc(2026, 3, 11, 0, 10));
        reading.Assumptions.ShouldContain("1 time is earlier on the clock than the one before in the same row and so taken as after midnight.");
    }

    [Fact]
    public void Times_before_the_working_day_are_asked_about_and_follow_its_date_where_it_is_said()
    {
        var text = $"{Numbers}Date;Start;End\nA-1;Tern;complete;2026-03-10;06:30;07:20\nA-2;Tern;complete;2026-03-10;08:00;08:40\n";
        var choices = Given.Choices with { WorkingDayBegins = new LocalTime(7, 0) };

        var calendar = Given.Built(text, choices).WithoutProblems();
        var working = Given.Built(text, choices with { DateIsWorkingDay = true }).WithoutProblems();

        calendar.Rows[0].Value.Start.ShouldBe(Instant.FromUtc(2026, 3, 10, 5, 30));
        calendar.Questions.ShouldContain(question => question.Kind == QuestionKind.WorkingDay && question.Text.StartsWith("1 time lies before 07:00", StringComparison.Ordinal));
        working.Rows[0].Value.Start.ShouldBe(Instant.FromUtc(2026, 3, 11, 5, 30));
        working.Rows[0].Value.End.ShouldBe(Instant.FromUtc(2026, 3, 11, 6, 20));
        working.Rows[1].Value.Start.ShouldBe(Instant.FromUtc(2026, 3, 10, 7, 0));
        working.Questions.ShouldNotContain(question => question.Kind == QuestionKind.WorkingDay);
    }

    [Fact]
    public void A_time_of_day_without_its_date_is_told_and_says_where_the_date_may_stand()
    {
        Given.Built($"{Numbers}Start\nA-1;Tern;complete;07:30\n").TheProblem().Expected.ShouldBe("a date and time such as 2026-03-10 23:50, or a column \u201CDate\u201D beside times of day");
        Given.Built($"{Numbers}Date;Start\nA-1;Tern;complete;;07:30\n").TheProblem().Expected.ShouldStartWith("a date in column Date beside this time of day");
        Given.Built($"{Numbers}Date;Start\nA-1;Tern;complete;soon;07:30\n").TheProblem().Expected.ShouldStartWith("a date beside the time of day: a date such as");
    }

    [Fact]
    public void A_zone_or_an_order_that_a_title_names_holds_for_its_times()
    {
        var utc = Given.Built($"{Numbers}Start (UTC);End [UTC+9]\nA-1;Tern;complete;2026-03-10 07:00;2026-03-10 17:00\n").WithoutProblems();
        var order = Given.Built($"{Numbers}Start [dd/mm/yyyy hh:mm]\nA-1;Tern;complete;03/04/2026 07:00\n").WithoutProblems();
        var unknown = Given.Built($"{Numbers}Start [ship]\nA-1;Tern;complete;2026-03-10 07:00\n").WithoutProblems();

        utc.Rows[0].Value.Start.ShouldBe(Instant.FromUtc(2026, 3, 10, 7, 0));
        utc.Rows[0].Value.End.ShouldBe(Instant.FromUtc(2026, 3, 10, 8, 0));
        utc.Assumptions.ShouldContain("Times of Start are UTC, as the title says.");
        order.Rows[0].Value.Start.ShouldBe(Instant.FromUtc(2026, 4, 3, 5, 0));
        unknown.Questions.ShouldContain(question => question.Kind == QuestionKind.TimeZone && question.Text.StartsWith("\u201CStart [ship]\u201D", StringComparison.Ordinal));
    }

    [Fact]
    public void A_gauge_with_date_and_time_apart_is_read()
    {
        var reading = WaterLevelReader.Read(Given.Bytes("Station,Date,Time,WL (m)\nNorth,2026-03-10,07:00,1.25\nNorth,2026-03-10,07:10,1.31\n"), Given.Choices, TestContext.Current.CancellationToken).WithoutProblems();

        reading.Rows.Select(row => (row.Value.At, row.Value.Metres)).ShouldBe([(Instant.FromUtc(2026, 3, 10, 6, 0), 1.25), (Instant.FromUtc(2026, 3, 10, 6, 10), 1.31)]);
    }
}
