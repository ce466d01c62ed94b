using System.Reflection;
using System.Runtime.CompilerServices;
using Shouldly;
using Xunit;

namespace SiteProgress.Architecture.Tests;

/// <summary>What the public types of the core promise: purity, values that do not change, numbers that say their unit.</summary>
public sealed class CoreTypesTests
{
    private static readonly string[] CoreMayReference = ["System", "ProjNET", "ProjNet", "NetTopologySuite", "MathNet.Numerics", "NodaTime", "netstandard"];

    // Ends of names that say a unit, or say that there is none.
    private static readonly string[] Units =
    [
        "Metres", "Epoch", "Degrees", "Radians", "Ratio", "Factor", "PerMinute", "Easting", "Northing", "CubicMetres", "Seconds", "Minutes", "Days", "Percent", "Millimetres",
    ];

    [Fact]
    public void The_core_references_the_runtime_and_four_libraries()
        => typeof(Core.Piles.PlannedPile).Assembly.GetReferencedAssemblies().Select(name => name.Name!)
            .ShouldAllBe(name => CoreMayReference.Any(allowed => name.StartsWith(allowed, StringComparison.Ordinal)));

    [Fact]
    public void Public_types_of_the_core_do_not_change() => Changeable(CoreTypes()).ShouldBeEmpty();

    [Fact]
    public void The_rule_of_unchanging_types_bites() => Changeable([typeof(Planted.Core.Coordinates.PlantedPoint)]).ShouldHaveSingleItem();

    [Fact]
    public void The_core_has_no_public_constants() => Constants(CoreTypes()).ShouldBeEmpty();

    [Fact]
    public void The_rule_of_constants_bites() => Constants([typeof(Planted.Core.Coordinates.PlantedPoint)]).ShouldHaveSingleItem();

    [Fact]
    public void Numbers_of_piles_checks_and_progress_say_their_unit()
        => WithoutUnit(CoreTypes().Where(type => type.Namespace is "SiteProgress.Core.Piles" or "SiteProgress.Core.Matching" or "SiteProgress.Core.Deviations"))
            .Where(name => !Excused.Contains(name)).ShouldBeEmpty();

    [Fact]
    public void The_rule_of_units_bites() => WithoutUnit([typeof(Planted.Core.Coordinates.PlantedPoint)]).ShouldBe(["PlantedPoint.Depth"]);

    [Fact]
    public void No_excuse_outlives_its_reason()
        => Excused.ShouldBeSubsetOf(WithoutUnit(CoreTypes()).ToArray());

    /// <summary>Numbers whose unit stands in the docstring because a name of the trade says it better.</summary>
    private static readonly string[] Excused =
    [
        "RecordedPosition.First", "RecordedPosition.Second", // metres or degrees by the frame beside them
        "Installation.SandInCasing", "Zone.SandPerMetreInPile", // cubic metres; the name must say which of the three volumes it is
        "LotRules.LeastSptBlows", // blows, counted as in every sounding
        "LimitAnswer.Value", "LimitAnswer.Limit", "LimitAnswer.Alert", // metres or degrees, all three in one unit
        "ShareInterval.EffectiveCount", // piles, and not a whole number of them
        "GridRotation.FirstAxisEast", "GridRotation.FirstAxisNorth", "GridRotation.SecondAxisEast", "GridRotation.SecondAxisNorth", // components of unit vectors
    ];

    private static Type[] CoreTypes() => typeof(Core.Piles.PlannedPile).Assembly.GetExportedTypes();

    private static IEnumerable<string> Changeable(IEnumerable<Type> types)
        => from type in types
           from property in type.GetProperties(BindingFlags.Public | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly)
           let setter = property.GetSetMethod()
           where setter is not null && !setter.ReturnParameter.GetRequiredCustomModifiers().Contains(typeof(IsExternalInit))
           select $"{type.Name}.{property.Name}";

    private static IEnumerable<string> Constants(IEnumerable<Type> types)
        => from type in types
           where !type.IsEnum
           from field in type.GetFields(BindingFlags.Public | BindingFlags.Static | BindingFlags.DeclaredOnly)
           where field.IsLiteral
           select $"{type.Name}.{field.Name}";

    private static IEnumerable<string> WithoutUnit(IEnumerable<Type> types)
        => from type in types
           from property in type.GetProperties(BindingFlags.Public | BindingFlags.Instance | BindingFlags.DeclaredOnly)
           where (Nullable.GetUnderlyingType(property.PropertyType) ?? property.PropertyType) == typeof(double)
               && !Units.Any(unit => property.Name.EndsWith(unit, StringComparison.Ordinal))
           select $"{type.Name}.{property.Name}";
}
