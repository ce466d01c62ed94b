using System.Reflection;
using Shouldly;
using SiteProgress.Core.Logs;
using Xunit;

namespace SiteProgress.Core.Tests.Logs;

/// <summary>The list that people read holds every number by which logs are read, with its value and where it comes from.</summary>
public sealed class LogNumbersTests
{
    [Fact]
    public void Every_number_is_listed_once_with_its_value_and_source()
    {
        string[] names = [.. typeof(LogConstants).GetProperties(BindingFlags.Public | BindingFlags.Instance).Where(property => property.PropertyType == typeof(double))
            .Select(property => char.ToLowerInvariant(property.Name[0]) + property.Name[1..])];

        LogNumbers.All.Select(number => number.Name).ShouldBe(names, ignoreOrder: true);
        LogNumbers.All.ShouldAllBe(number => number.Meaning.Length > 0 && number.Source.Length > 0 && double.IsFinite(number.Of(LogConstants.Standard)));
        LogNumbers.All.Single(number => number.Name == "leastCoverMetres").Of(new LogConstants { LeastCoverMetres = 1.5 }).ShouldBe(1.5);
    }
}
