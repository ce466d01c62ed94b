using Microsoft.EntityFrameworkCore;
using SiteProgress.Storage.Derived;

#pragma warning disable IDE0130 // one context, modelled in a file beside each concept
namespace SiteProgress.Storage;
#pragma warning restore IDE0130

public sealed partial class SiteProgressDb
{
    private static void ModelSurvey(ModelBuilder builder)
    {
        builder.Entity<CalibrationRow>(calibration =>
        {
            calibration.ToTable("calibration", "derived");
            calibration.HasKey(row => new { row.Site, row.Sequence });
            calibration.Property(row => row.Values).HasColumnType("jsonb");
            OfSite(calibration);
        });
        builder.Entity<PileLogRow>(log =>
        {
            log.ToTable("pile_log", "derived");
            log.HasKey(row => new { row.Site, row.Sequence });
            log.Property(row => row.Figures).HasColumnType("jsonb");
            log.HasIndex(row => new { row.Site, row.Number });
            OfSite(log);
        });
        builder.Entity<WaterDayRow>(day =>
        {
            day.ToTable("water_day", "derived");
            day.HasKey(row => new { row.Site, row.Gauge, row.Day });
            OfSite(day);
        });
        builder.Entity<GaugeRow>(gauge =>
        {
            gauge.ToTable("gauge", "derived");
            gauge.HasKey(row => new { row.Site, row.Sequence });
            OfSite(gauge);
        });
        builder.Entity<GaugeCheckRow>(check =>
        {
            check.ToTable("gauge_check", "derived");
            check.HasKey(row => new { row.Site, row.Sequence });
            OfSite(check);
        });
        builder.Entity<ClockCorrectionRow>(clock =>
        {
            clock.ToTable("clock_correction", "derived");
            clock.HasKey(row => new { row.Site, row.Sequence });
            OfSite(clock);
        });
        builder.Entity<SenderKeyRow>(key =>
        {
            key.ToTable("sender_key", "derived");
            key.HasKey(row => new { row.Site, row.Key });
            OfSite(key);
        });
    }
}
