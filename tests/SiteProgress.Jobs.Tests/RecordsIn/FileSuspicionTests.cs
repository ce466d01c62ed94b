using Shouldly;
using SiteProgress.Core.Matching;
using SiteProgress.Jobs.RecordsIn;
using Xunit;

namespace SiteProgress.Jobs.Tests.RecordsIn;

/// <summary>Mistakes of a whole file, planted one at a time into piles built well; and files built well, in which nothing may be suspected.</summary>
public sealed class FileSuspicionTests : IDisposable
{
    private readonly LooseFiles files = new();

    public static TheoryData<string, int> CleanSites
    {
        get
        {
            TheoryData<string, int> sites = [];
            foreach (string family in new[] { "independent", "shared", "heavy" })
            {
                for (int seed = 1; seed <= 7; seed++) sites.Add(family, seed);
            }

            return sites;
        }
    }

    [Theory]
    [MemberData(nameof(CleanSites))]
    public void Nothing_is_suspected_of_a_file_that_is_right(string family, int seed)
    {
        Func<Random, Random, double> noise = family switch
        {
            "independent" => (_, each) => 0.05 * BuiltPiles.Normal(each),
            "shared" => (shared, each) => (0.05 * BuiltPiles.Normal(shared)) + (0.02 * BuiltPiles.Normal(each)),
            // Student's t with three degrees of freedom, and a drift that a day of poor corrections would bring.
            _ => (shared, each) => (0.03 * BuiltPiles.Normal(each) / Math.Sqrt((Math.Pow(BuiltPiles.Normal(each), 2) + Math.Pow(BuiltPiles.Normal(each), 2) + Math.Pow(BuiltPiles.Normal(each), 2)) / 3)) + (0.04 * shared.NextDouble()),
        };

        files.SuspicionOf(new BuiltPiles { Seed = seed, Noise = noise }.ToText()).ShouldBeNull();
    }

    [Fact]
    public void An_offset_of_the_whole_batch_is_measured_and_its_direction_named()
        => files.SuspicionOf(new BuiltPiles { Place = (x, y) => (x + 0.25, y - 0.02) }.ToText())
            .ShouldNotBeNull().ShouldMatch(@"^The piles of this file share an offset: half of them lie 0\.2[3-7] m or more .* \(X \+0\.2[3-7] m, Y [+\u2212]0\.0[0-4] m; 60 piles in 20 set-ups");

    [Fact]
    public void Feet_under_the_titles_of_metres_are_named()
        => files.SuspicionOf(new BuiltPiles { Place = (x, y) => (x / 0.3048, y / 0.3048) }.ToText())
            .ShouldNotBeNull().ShouldContain("60 of these: These look like feet: read as feet, the point lies at the site");

    [Fact]
    public void A_neighbouring_zone_is_named()
    {
        // The demo's schedule of zone B is in UTM zone 32; cs2cs puts it into zone 33.
        string[][] rows = [.. File.ReadLines(LooseFiles.Seed("planned-piles-zone-b.csv")).Skip(3).Take(20).Select(line => line.Replace(',', '.').Split(';'))];
        (double East, double North)[] zone33 = LooseFiles.Cs2Cs("EPSG:25832", "EPSG:25833", rows.Select(cells => (LooseFiles.Number(cells[2]), LooseFiles.Number(cells[3]))));
        string text = "Pile No,Zone,Easting [m],Northing [m]\n" + string.Concat(rows.Select((cells, index) => FormattableString.Invariant($"{cells[0]},B,{zone33[index].East},{zone33[index].North}\n")));

        files.SuspicionOf(text).ShouldNotBeNull().ShouldContain("20 of these: This looks like a point of the neighbouring zone, whose central meridian lies 6 degrees further");
    }

    [Theory]
    [InlineData(-1.0, "Tip levels look counted the other way: half of the 60 are 28.")]
    [InlineData(1 / 0.3048, "Tip levels look like feet: half of the 60 are \u221292.")]
    public void Levels_counted_down_or_in_feet_are_named(double factor, string begins)
        => files.SuspicionOf(new BuiltPiles { Tip = tip => factor * tip }.ToText()).ShouldNotBeNull().ShouldStartWith(begins);

    [Fact]
    public void Levels_of_another_datum_are_named_with_their_shift()
        => files.SuspicionOf(new BuiltPiles { Tip = tip => tip + 2.4 }.ToText()).ShouldNotBeNull().ShouldStartWith("Tip levels lie alike 2.3");

    [Fact]
    public void Times_in_UTC_are_named_by_the_hours_the_barge_keeps()
    {
        // The barge works from seven to seventeen site time, which is two hours before UTC in May (IANA: Europe/Copenhagen, +02:00).
        string before = new BuiltPiles { Count = 240, FirstStart = new DateTime(2026, 4, 20, 7, 0, 0) }.ToText();
        string utc = new BuiltPiles { From = 300, FirstStart = new DateTime(2026, 5, 5, 7, 0, 0), Clock = time => time.AddHours(-2) }.ToText();
        string local = new BuiltPiles { From = 300, FirstStart = new DateTime(2026, 5, 5, 7, 0, 0) }.ToText();

        files.SuspicionOf(utc, before).ShouldNotBeNull().ShouldBe("Times look like UTC, not site time: as read, 12 of 60 piles were finished at hours at which the same barge has never worked; taken as UTC, 0.");
        files.SuspicionOf(local, before).ShouldBeNull();
    }

    [Fact]
    public void Times_in_UTC_are_named_by_a_casing_that_would_work_at_two_piles_at_once()
    {
        // A second file of the same days, in UTC: as read it lies two hours too early, among the piles of the first.
        string before = new BuiltPiles { Count = 30 }.ToText();
        string utc = new BuiltPiles { From = 300, Count = 12, FirstStart = new DateTime(2026, 3, 10, 17, 0, 0), Clock = time => time.AddHours(-1) }.ToText();

        files.SuspicionOf(utc, before).ShouldNotBeNull().ShouldBe("Times look like UTC, not site time: as read, 3 of 12 piles were built while the same casing was at work on another one; taken as UTC, 0.");
    }

    [Fact]
    public void Numbers_a_spreadsheet_changed_are_named_with_what_they_would_be()
    {
        string text = new BuiltPiles { Name = number => number.Replace("A-00", "A-", StringComparison.Ordinal) }.ToText();

        FileRead file = files.Read(null, files.Write("built.csv", text))[^1];

        file.Suspicions.ShouldContain("60 pile numbers are not in the design as written, and are when lost zeros in front are put back: A-01 would be A-0001, A-02 would be A-0002, A-03 would be A-0003, A-04 would be A-0004, A-05 would be A-0005, and 55 more.");
        file.MatchCounts[MatchOutcome.UnknownNumber].ShouldBe(60);
    }

    [Fact]
    public void Mapped_columns_fixed_values_and_depths_bring_a_file_of_any_look_to_the_same_records()
    {
        string odd = "Sandlark log\nRef;Mark;Begin;Done;East of grid;North of grid;Toe depth (m)\n"
            + "R1;A-0001;10.03.2026 07:10;10.03.2026 07:52;1000,02;2000,01;28,4\nR2;A-0002;10.03.2026 08:10;10.03.2026 08:52;1002,12;2000,01;28,6\n";
        string plain = LooseFiles.Header + "\nR1,A-0001,Tern,1,,2026-03-10 07:10,2026-03-10 07:52,1000.02,2000.01,,-28.1,,complete\nR2,A-0002,Tern,1,,2026-03-10 08:10,2026-03-10 08:52,1002.12,2000.01,,-28.3,,complete\n";
        UploadChoices said = ChoicePairs.Read(
            [("content", "installations"), ("header", "2"), ("c0", "record"), ("c1", "pileno"), ("c3", "end"), ("c4", "xend"), ("c5", "yend"), ("depths", "0.3"),
             ("v.barge", "Tern"), ("v.casing", "1"), ("v.outcome", "complete")]);

        FileRead mapped = files.Read(said, files.Write("odd.csv", odd))[^1];
        FileRead expected = files.Read(null, files.Write("plain.csv", plain))[^1];

        mapped.Problems.ShouldBeEmpty();
        mapped.Rows.Select(row => Body(row)).ShouldBe(expected.Rows.Select(row => Body(row)));
        mapped.Assumptions.ShouldContain("The depths of Tip level are counted down from level 0.30 m, as chosen: level = 0.30 m \u2212 depth.");
        mapped.Assumptions.ShouldContain("Barge is \u201CTern\u201D in all rows, as chosen.");
    }

    [Fact]
    public void Without_an_answer_a_depth_is_refused_and_nothing_is_guessed()
    {
        string text = LooseFiles.Header.Replace("Tip level [m]", "Tip depth [m]", StringComparison.Ordinal) + "\nR1,A-0001,Tern,1,,,,1000.02,2000.01,,28.1,,complete\n";

        FileRead file = files.Read(null, files.Write("depth.csv", text))[^1];

        file.IsRefused.ShouldBeTrue();
        file.Problems.ShouldHaveSingleItem().Expected.ShouldStartWith("the level of the surface that these depths are counted down from");
        file.Questions.ShouldContain("Tip level is written as a depth. Below which level is it counted? Where it is counted from the water, the deck or the antenna, say so at the column instead.");
    }

    public void Dispose() => files.Dispose();

    private static string Body(System.Text.Json.JsonElement row) => row.GetProperty("installation").GetRawText();
}
