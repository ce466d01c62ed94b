using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.SandDeliveries;

namespace SiteProgress.Exchange.Tests;

public sealed class SandDeliveryTests
{
    private const string Header = "Time,Entry,Ticket,Sand source,Barge,Volume [m3],Remark\n";

    [Fact]
    public void A_load_is_read_with_its_time_source_and_loose_volume()
    {
        var row = Read("2026-03-10T23:50+01:00,delivered,S-7,long shoal,tern,640.5,wet\n").Rows.ShouldHaveSingleItem();

        row.Value.ShouldBe(new SandDelivery(
            "S-7", Instant.FromUtc(2026, 3, 10, 22, 50), SandEntry.Delivered, "Long Shoal", "Tern", 640.5, "wet"));
    }

    [Theory]
    [InlineData("2026-03-10 12:00,arrived,,Long Shoal,,10,", "Entry", "delivered, stock or wasted")]
    [InlineData("2026-03-10 12:00,stock,,Far Bank,,10,", "Sand source", "a sand source of this site: Long Shoal")]
    [InlineData("2026-03-10 12:00,stock,,Long Shoal,,,", "Volume", "a value")]
    [InlineData("2026-03-10 12:00,stock,,Long Shoal,,-3,", "Volume", "cubic metres between 0 and 10000")]
    public void What_cannot_be_balanced_is_told_by_line_and_column(string line, string column, string expected)
    {
        var reading = Read(line + "\n");

        reading.Rows.ShouldBeEmpty();
        var problem = reading.Problems.ShouldHaveSingleItem();
        (problem.Line, problem.Column, problem.Expected).ShouldBe((2, column, expected));
    }

    private static TableReading<SandDelivery> Read(string rows) => SandDeliveryReader.Read(
        Given.Bytes(Header + rows), Given.Choices with { SandSources = ["Long Shoal"] }, TestContext.Current.CancellationToken);
}
