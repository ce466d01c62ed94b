using Shouldly;
using SiteProgress.Jobs.Piles;
using Xunit;

namespace SiteProgress.Jobs.Tests.Piles;

public sealed class NearNumbersTests
{
    // The textbook pairs and their distances: D. Gusfield, Algorithms on Strings, Trees and Sequences (1997), part III (from memory).
    [Theory]
    [InlineData("kitten", "sitting", 3)]
    [InlineData("vintner", "writers", 5)]
    [InlineData("", "abc", 3)]
    [InlineData("same", "same", 0)]
    public void The_number_of_changes_is_the_edit_distance(string first, string second, int changes)
        => NearNumbers.Changes(first, second).ShouldBe(changes);

    [Theory]
    [InlineData("A-0012", "A12")]
    [InlineData("a 12", "A12")]
    [InlineData("A-0100", "A100")]
    [InlineData("B2-007", "B27")]
    public void What_is_easily_typed_another_way_is_left_out(string number, string plain)
        => NearNumbers.Plain(number).ShouldBe(plain);

    [Fact]
    public void The_nearest_number_comes_first()
        => NearNumbers.Of("A-0012", ["B-0012", "A-0013", "A-0012", "C-9999"], 2).ShouldBe(["A-0012", "A-0013"]);
}
