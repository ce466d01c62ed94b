using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using Shouldly;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Map;
using SiteProgress.Jobs.Recording;
using Xunit;

namespace SiteProgress.Jobs.Tests.Map;

public sealed class ReadMapPilesTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    private static readonly CancellationToken Stop = CancellationToken.None;

    [Fact]
    public async Task A_planned_and_a_built_pile_read_back_from_the_bytes()
    {
        await using TestSite site = await OpenAsync();
        await site.RecordAsync(Role.Surveyor, TestSite.PlannedRow(3));
        await site.RecordAsync(Role.Surveyor, TestSite.BuiltRow(1));

        DecodedPiles piles = await ReadAsync(site);

        piles.Magic.ShouldBe("SPM1");
        piles.Count.ShouldBe(3);
        piles.Number(0).ShouldBe("A-0001");
        piles.Number(2).ShouldBe("A-0003");
        piles.State(0).ShouldBe((int)PileState.Installed);
        piles.State(1).ShouldBe((int)PileState.Outstanding);
        piles.Zone(0).ShouldBe(0);
        piles.Barge(0).ShouldBe(0);
        piles.Barge(1).ShouldBe(255);
        piles.Day(0).ShouldBe(0);
        piles.Day(1).ShouldBe(65535);
        piles.DesignDiameter(1).ShouldBe(2.0f);

        // The site grid lies along the CRS grid, so dE and dN are the recorded 40 mm and 30 mm.
        piles.DeviationEast(0).ShouldBe(40, 0.01);
        piles.DeviationNorth(0).ShouldBe(30, 0.01);
        piles.DeviationEast(1).ShouldBe(float.NaN);
        piles.BuiltDiameter(1).ShouldBe(float.NaN);

        // 71.5 m3 in the casing times C = 0.8 over 18.1 m: a cylinder of that volume.
        piles.BuiltDiameter(0).ShouldBe((float)Math.Sqrt(4 * 71.5 * 0.8 / (Math.PI * 18.1)), 1e-5f);
        piles.Preamble.GetProperty("zones")[0].GetString().ShouldBe("A");
        piles.Preamble.GetProperty("barges")[0].GetString().ShouldBe("Tern");
        piles.Preamble.GetProperty("days")[0].GetString().ShouldBe("2026-03-10");
        piles.Preamble.GetProperty("designRevision").GetString()!.ShouldStartWith("plan.csv");
    }

    [Fact]
    public async Task The_answer_has_the_length_its_description_gives()
    {
        await using TestSite site = await OpenAsync();
        await site.RecordAsync(Role.Surveyor, TestSite.PlannedRow(7));
        byte[] bytes = await BytesAsync(site);

        DecodedPiles piles = new(bytes);

        piles.LengthByDescription.ShouldBe(bytes.Length);
        (piles.PreambleBytes % 8).ShouldBe(0);
    }

    [Fact]
    public async Task A_site_without_a_design_gives_no_piles_and_no_fit()
    {
        await using TestSite site = await OpenAsync();

        DecodedPiles piles = await ReadAsync(site);

        piles.Count.ShouldBe(0);
        piles.Preamble.TryGetProperty("siteGrid", out _).ShouldBeFalse();
    }

    [Fact]
    public async Task The_pointers_coordinates_keep_to_the_error_that_is_stated()
    {
        await using TestSite site = await OpenAsync();
        await site.RecordAsync(Role.Surveyor, TestSite.PlannedRow(1400));

        JsonElement fit = (await ReadAsync(site)).Preamble.GetProperty("siteGrid");

        double stated = fit.GetProperty("largestErrorMetres").GetDouble();
        stated.ShouldBeLessThanOrEqualTo(0.0001);
        CoordinateService exact = new SiteFrames(
            [JsonSerializer.Deserialize<AdjustmentBody>(
                await site.OneAsync<string>("select adjustment::text from derived.site_state s join record.site r using (site) where r.code = $1", site.Code),
                RecordJson.Options)!]).Current;
        foreach (double x in new[] { 0.0, 733, 1470, 2937.9 })
        {
            GeographicCoordinate at = exact.ToGeographic(new SiteCoordinate(x, 0));
            (double first, double second) = AsThePageDoes(fit, at);
            double.Hypot(first - x, second).ShouldBeLessThanOrEqualTo(stated + 1e-6);
        }
    }

    [Fact]
    public async Task The_tag_changes_with_a_record_and_only_then()
    {
        await using TestSite site = await OpenAsync();
        ReadMapPiles job = site.Services.GetRequiredService<ReadMapPiles>();
        string before = await job.TagAsync(await site.PermitAsync(Role.ProjectManager), Stop);

        (await job.TagAsync(await site.PermitAsync(Role.ProjectManager), Stop)).ShouldBe(before);
        await site.RecordAsync(Role.Surveyor, TestSite.PlannedRow(1));

        (await job.TagAsync(await site.PermitAsync(Role.ProjectManager), Stop)).ShouldNotBe(before);
    }

    [Fact]
    public async Task A_barge_is_drawn_with_its_casing_where_the_record_has_it()
    {
        await using TestSite site = await OpenAsync();
        SiteSettings settings = JsonSerializer.Deserialize<SiteSettings>(
            await site.OneAsync<string>("select settings::text from derived.site_state s join record.site r using (site) where r.code = $1", site.Code), RecordJson.Options)!;
        Barge tern = settings.Barges[0] with { Hull = new Hull(60, 20) };
        await site.Services.GetRequiredService<SiteRecorder>().AppendAsync(
            await site.PermitAsync(Role.Administrator), Right.ChangeSettings, _ => [new SettingsBody(settings with { Barges = [tern] }, null, false)], Stop);
        await site.RecordAsync(Role.Surveyor, TestSite.PlannedRow(1));
        await site.RecordAsync(Role.Surveyor, TestSite.BuiltRow(1));

        ReadMapDrawing.Drawing drawing = await site.Services.GetRequiredService<ReadMapDrawing>().RunAsync(await site.PermitAsync(Role.Surveyor), Stop);

        JsonElement barge = JsonDocument.Parse(drawing.GeoJson).RootElement.GetProperty("features").EnumerateArray()
            .Single(feature => feature.GetProperty("properties").GetProperty("kind").GetString() == "barge");
        barge.GetProperty("properties").GetProperty("name").GetString().ShouldBe("Tern");
        JsonElement ring = barge.GetProperty("geometry").GetProperty("coordinates")[0];
        CoordinateService exact = new SiteFrames(
            [JsonSerializer.Deserialize<AdjustmentBody>(
                await site.OneAsync<string>("select adjustment::text from derived.site_state s join record.site r using (site) where r.code = $1", site.Code),
                RecordJson.Options)!]).Current;
        SiteCoordinate Corner(int index) => exact.ToSite(new GeographicCoordinate(ring[index][1].GetDouble(), ring[index][0].GetDouble()));

        // Heading 33 degrees, casing 20 m forward of the middle of a hull of 60 m: the bow lies 10 m ahead of the casing at (0.04, 0.03).
        SiteCoordinate bow = Corner(2);
        bow.XMetres.ShouldBe(0.04 + (10 * Math.Sin(33 * Math.PI / 180)), 0.02);
        bow.YMetres.ShouldBe(0.03 + (10 * Math.Cos(33 * Math.PI / 180)), 0.02);
        double.Hypot(Corner(0).XMetres - Corner(4).XMetres, Corner(0).YMetres - Corner(4).YMetres).ShouldBe(20, 0.02);
    }

    [Fact]
    public async Task A_control_point_is_drawn_with_what_the_adjustment_leaves_there()
    {
        await using TestSite site = await OpenAsync();
        AdjustmentBody opened = JsonSerializer.Deserialize<AdjustmentBody>(
            await site.OneAsync<string>("select adjustment::text from derived.site_state s join record.site r using (site) where r.code = $1", site.Code), RecordJson.Options)!;
        CoordinateService exact = new SiteFrames([opened]).Current;
        SiteCoordinate drawn = new(100, 200);
        ProjectedCoordinate computed = exact.ToProjected(drawn);

        // Surveyed 6 mm west and 8 mm south of where the adjustment puts it: 10 mm are left, and 60 m at most make 5,000 times.
        ControlPoint mark = new("M-1", drawn, new ProjectedCoordinate(computed.EastingMetres - 0.006, computed.NorthingMetres - 0.008), 0.004);
        await site.Services.GetRequiredService<SiteRecorder>().AppendAsync(
            await site.PermitAsync(Role.Surveyor), Right.KeepSurvey,
            _ => [opened with { Adjustment = opened.Adjustment with { Revision = 2 }, ControlPoints = [mark] }], Stop);

        ReadMapDrawing.Drawing drawing = await site.Services.GetRequiredService<ReadMapDrawing>().RunAsync(await site.PermitAsync(Role.Surveyor), Stop);

        JsonElement root = JsonDocument.Parse(drawing.GeoJson).RootElement;
        root.GetProperty("residualsTimesTooLong").GetDouble().ShouldBe(5000);
        JsonElement Of(string kind) => root.GetProperty("features").EnumerateArray().Single(feature => feature.GetProperty("properties").GetProperty("kind").GetString() == kind);
        Of("control").GetProperty("properties").GetProperty("name").GetString().ShouldBe("M-1, 10.0 mm");
        JsonElement end = Of("residual").GetProperty("geometry").GetProperty("coordinates")[1];
        ProjectedCoordinate at = exact.ToProjected(new GeographicCoordinate(end[1].GetDouble(), end[0].GetDouble()));
        (at.EastingMetres - mark.Projected.EastingMetres).ShouldBe(30, 0.01);
        (at.NorthingMetres - mark.Projected.NorthingMetres).ShouldBe(40, 0.01);
    }

    private Task<TestSite> OpenAsync() => TestSite.OpenAsync(database, services =>
    {
        services.AddTransient<ReadMapPiles>();
        services.AddTransient<ReadMapDrawing>();
    });

    private static async Task<DecodedPiles> ReadAsync(TestSite site) => new(await BytesAsync(site));

    private static async Task<byte[]> BytesAsync(TestSite site)
    {
        MapPiles piles = await site.Services.GetRequiredService<ReadMapPiles>().RunAsync(await site.PermitAsync(Role.OwnersRepresentative), Stop);
        using MemoryStream stream = new();
        await piles.WriteAsync(stream, Stop);
        return stream.ToArray();
    }

    private static (double First, double Second) AsThePageDoes(JsonElement fit, GeographicCoordinate at)
    {
        double Of(string name) => fit.GetProperty(name).GetDouble();
        double u = (at.LongitudeDegrees - Of("centreLongitude")) / Of("spanLongitude");
        double v = (at.LatitudeDegrees - Of("centreLatitude")) / Of("spanLatitude");
        double[] terms = [1, u, v, u * u, u * v, v * v, u * u * u, u * u * v, u * v * v, v * v * v, u * u * u * u, u * u * u * v, u * u * v * v, u * v * v * v, v * v * v * v];
        double Sum(string name) => fit.GetProperty(name).EnumerateArray().Select((factor, index) => factor.GetDouble() * terms[index]).Sum();
        return (Sum("first"), Sum("second"));
    }
}
