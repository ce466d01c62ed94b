using System.Globalization;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using NodaTime.Text;
using Shouldly;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Sand;
using SiteProgress.Jobs.Treatment;
using Xunit;

namespace SiteProgress.Jobs.Tests.Demo;

/// <summary>The sand account of the demo against what is true of it.</summary>
[Collection(DemoCollection.Name)]
public sealed class DemoSandTests(DemoSite demo)
{
    [Fact]
    public async Task The_load_that_was_never_written_down_is_a_finding_of_its_week_and_of_its_size()
    {
        string[] missing = File.ReadAllLines(Path.Combine(DemoSite.SeedFolder, "truth", "truth-sand-deliveries.csv"))[2].Split(',');
        Instant at = OffsetDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mmo<m>").Parse(missing[0]).Value.ToInstant();
        SandAccountView view = await ReadAsync();

        SandPeriodLine week = view.Periods.Single(line => line.Account.Barge == missing[3] && line.Account.Source == missing[2] && line.Account.From <= at && at < line.Account.To);

        week.Account.OverLimit.ShouldBeTrue();
        // Measured stocks scatter by 4 m3 each, loads by 0.8 % of up to 900 m3.
        week.Account.DifferenceCubicMetres.ShouldBe(double.Parse(missing[4], CultureInfo.InvariantCulture), 60);
    }

    [Fact]
    public async Task That_week_waits_to_be_gathered_into_a_non_conformance_with_its_numbers()
    {
        SandAccountView view = await ReadAsync();
        SandPeriodLine[] over = [.. view.Periods.Where(line => line.Account.OverLimit)];

        ReadFreeFindings.Answer free = await demo.Services.GetRequiredService<ReadFreeFindings>().RunAsync(
            await demo.PermitAsync(Role.ProjectManager), ReadFreeFindings.Filter.All with { Check = CheckName.SandAccount }, TestContext.Current.CancellationToken);

        (free.Accounts, free.Piles, free.Total).ShouldBe((over.Length, 0, over.Length));
        free.Findings.Select(finding => finding.Account).ShouldBe(over.Select(line => line.Account.Name));
        free.Days.Select(day => day.Value).ShouldBe(over.Select(line => line.LastDay).Distinct().OrderDescending());
    }

    [Fact]
    public async Task Every_pile_with_a_log_has_its_sand_held_against_record_and_charges_and_agrees()
    {
        SandAccountView view = await ReadAsync();

        view.Piles.Count.ShouldBeGreaterThan(140);
        view.Piles.ShouldAllBe(one => one.AgainstRecordRatio != null && !one.OverLimit);
        view.Periods.Where(line => line.Account.WithLog > 0).ShouldAllBe(line => Math.Abs((line.Account.ByLogsCubicMetres / line.Account.ByRecordsCubicMetres) - 1) < 0.02);
    }

    [Fact]
    public async Task Each_source_has_the_sand_of_its_piles_by_plain_sql_and_an_observed_C_below_the_approved_one()
    {
        SandAccountView view = await ReadAsync();

        foreach ((string source, string zones) in new[] { ("Long Shoal", "'A', 'B'"), ("Outer Ridge", "'C'") })
        {
            SandOfSource one = view.Sources.Single(line => line.Source == source);
            one.Piles.ShouldBe(await demo.OneAsync<int>($"select count(*)::int from derived.pile where sand_in_casing is not null and zone in ({zones})"));
            one.InPile.ShouldBe(await demo.OneAsync<double>($"select sum(sand_in_pile) from derived.pile where zone in ({zones})"), 0.01);
            one.ObservedFactor!.Value.ShouldBe(await demo.OneAsync<double>($"select sum(sand_design) / sum(sand_in_pile) * {one.ApprovedFactor!.Value.ToString(CultureInfo.InvariantCulture)} from derived.pile where sand_in_pile is not null and zone in ({zones})"), 1e-6);

            // The generator builds piles some per cent over the design on purpose, as crews do.
            one.ObservedFactor.Value.ShouldBeInRange(0.9 * one.ApprovedFactor.Value, one.ApprovedFactor.Value);
            one.DeliveredCubicMetres.ShouldBeGreaterThan(one.InCasingUsed);
        }
    }

    private async Task<SandAccountView> ReadAsync()
        => (await demo.Services.GetRequiredService<ReadSandAccount>().RunAsync(await demo.PermitAsync(Role.ProjectManager), TestContext.Current.CancellationToken)).ShouldNotBeNull();
}
