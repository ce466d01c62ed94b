using System.Text.Json;
using Shouldly;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Sites;
using Xunit;

namespace SiteProgress.Jobs.Tests.Operation;

/// <summary>What an operator reads when the settings file of a site cannot be read.</summary>
public sealed class SettingsFileTests
{
    private static readonly string Good = JsonSerializer.Serialize(TestSite.Settings("harbour"), RecordJson.Options);

    [Fact]
    public void A_file_as_it_should_be_is_read() => SettingsFile.Read(Good).Settings.ShouldNotBeNull().Code.ShouldBe("harbour");

    [Theory]
    [InlineData("\"pattern\":\"square\"", "\"pattern\":\"hexagonal\"", "zones[0].pattern (line 1): found \"hexagonal\"; expected one of square, rectangular, triangular.")]
    [InlineData("\"workingDayBegins\":\"", "\"workingDayBegins\":\"2", "expected a time of day from \"00:00\" to \"23:59\".")]
    [InlineData("\"spacingMetres\":", "\"spacingMetres\":\"2,1\",\"was\":", "zones[0].spacingMetres (line 1): found \"2,1\"; expected a number with a decimal point and without quotation marks.")]
    [InlineData("\"spacingMetres\":", "\"spacingMeters\":", "expected one of the members code, name, pattern, spacingMetres,")]
    [InlineData("\"projectedCrs\":", "\"projectedCrs\":\"EPSG\",\"was\":", "projectedCrs (line 1): found \"EPSG\"; expected a whole number without quotation marks.")]
    public void A_value_that_cannot_be_read_is_told_with_its_place_and_what_was_expected(string now, string then, string sentence)
    {
        Good.ShouldContain(now);

        SettingsFile.Read(Good.Replace(now, then, StringComparison.Ordinal)).Refusal.ShouldNotBeNull().ShouldContain(sentence);
    }

    [Theory]
    [InlineData("{\"code\": \"harbour\", ", "is not JSON from line 1 on")]
    [InlineData("", "is not JSON from line 1 on")]
    [InlineData("null", "holds nothing")]
    [InlineData("[]", "found []; expected members between { and }")]
    public void What_is_no_settings_at_all_is_told(string text, string sentence)
        => SettingsFile.Read(text).Refusal.ShouldNotBeNull().ShouldContain(sentence);
}
