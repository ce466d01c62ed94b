using Microsoft.EntityFrameworkCore;
using SiteProgress.Storage.Derived;

#pragma warning disable IDE0130 // one context, modelled in a file beside each concept
namespace SiteProgress.Storage;
#pragma warning restore IDE0130

public sealed partial class SiteProgressDb
{
    private static void ModelProgress(ModelBuilder builder)
    {
        builder.Entity<DiaryLineRow>(line =>
        {
            line.ToTable("diary_line", "derived");
            line.HasKey(row => new { row.Site, row.WorkingDay, row.Barge, row.Place });
            OfSite(line);
        });
        builder.Entity<PlannedProgressRow>(planned =>
        {
            planned.ToTable("planned_progress", "derived");
            planned.HasKey(row => new { row.Site, row.Zone, row.Day });
            OfSite(planned);
        });
        builder.Entity<WorkPlanRow>(plan =>
        {
            plan.ToTable("work_plan", "derived");
            plan.HasKey(row => new { row.Site, row.Sequence });
            plan.Property(row => row.Plan).HasColumnType("jsonb");
            OfSite(plan);
        });
        builder.Entity<DayNotesRow>(notes =>
        {
            notes.ToTable("day_notes", "derived");
            notes.HasKey(row => new { row.Site, row.WorkingDay });
            notes.Property(row => row.Notes).HasColumnType("jsonb");
            OfSite(notes);
        });
        builder.Entity<DailyReportRow>(report =>
        {
            report.ToTable("daily_report", "derived");
            report.HasKey(row => new { row.Site, row.WorkingDay, row.Issue });
            report.Property(row => row.Disputes).HasColumnType("jsonb");
            OfSite(report);
        });
    }
}
