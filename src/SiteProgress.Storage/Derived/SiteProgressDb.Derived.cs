using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using SiteProgress.Storage.Derived;
using SiteProgress.Storage.Records;

#pragma warning disable IDE0130 // one context, modelled in a file beside each concept
namespace SiteProgress.Storage;
#pragma warning restore IDE0130

public sealed partial class SiteProgressDb
{
    /// <summary>How far each site's derived state reaches.</summary>
    public DbSet<SiteStateRow> SiteStates => Set<SiteStateRow>();

    /// <summary>Who holds which role.</summary>
    public DbSet<SiteRoleRow> SiteRoles => Set<SiteRoleRow>();

    /// <summary>Batches.</summary>
    public DbSet<BatchRow> Batches => Set<BatchRow>();

    /// <summary>Planned piles with all that follows for them.</summary>
    public DbSet<PileRow> Piles => Set<PileRow>();

    /// <summary>Recorded installations.</summary>
    public DbSet<InstallationRow> Installations => Set<InstallationRow>();

    /// <summary>Recorded logs.</summary>
    public DbSet<PileLogRow> PileLogs => Set<PileLogRow>();

    /// <summary>Production by working day.</summary>
    public DbSet<DayProductionRow> DayProductions => Set<DayProductionRow>();

    /// <summary>Check measurements.</summary>
    public DbSet<PositionCheckRow> PositionChecks => Set<PositionCheckRow>();

    /// <summary>Findings under treatment.</summary>
    public DbSet<NonConformanceRow> NonConformances => Set<NonConformanceRow>();

    /// <summary>Lots.</summary>
    public DbSet<LotRow> Lots => Set<LotRow>();

    /// <summary>Hold points.</summary>
    public DbSet<HoldPointRow> HoldPoints => Set<HoldPointRow>();

    static partial void ModelDerived(ModelBuilder builder)
    {
        builder.Entity<SiteStateRow>(state =>
        {
            state.ToTable("site_state", "derived");
            state.HasKey(row => row.Site);
            state.Property(row => row.Site).ValueGeneratedNever();
            state.Property(row => row.Settings).HasColumnType("jsonb");
            state.Property(row => row.Drawing).HasColumnType("jsonb");
            state.Property(row => row.Adjustment).HasColumnType("jsonb");
            OfSite(state);
        });
        builder.Entity<SiteRoleRow>(role =>
        {
            role.ToTable("site_role", "derived");
            role.HasKey(row => new { row.Site, row.Account });
            OfSite(role);
        });
        builder.Entity<BatchRow>(batch =>
        {
            batch.ToTable("batch", "derived");
            batch.HasKey(row => new { row.Site, row.Batch });
            batch.Property(row => row.Problems).HasColumnType("jsonb");
            OfSite(batch);
        });
        builder.Entity<PileRow>(pile =>
        {
            pile.ToTable("pile", "derived");
            pile.HasKey(row => new { row.Site, row.Number });
            pile.Property(row => row.DesignPlace).HasColumnType("geometry(Point)");
            pile.Property(row => row.AsBuiltPlace).HasColumnType("geometry(Point)");
            pile.Property(row => row.Checks).HasColumnType("jsonb");
            pile.HasIndex(row => row.DesignPlace).HasMethod("gist");
            pile.HasIndex(row => new { row.Site, row.WorkingDay });
            pile.HasIndex(row => new { row.Site, row.State });
            OfSite(pile);
        });
        builder.Entity<InstallationRow>(installation =>
        {
            installation.ToTable("installation", "derived");
            installation.HasKey(row => new { row.Site, row.Sequence });
            installation.Property(row => row.Place).HasColumnType("geometry(Point)");
            installation.Property(row => row.Levels).HasColumnType("jsonb");
            installation.HasIndex(row => row.Place).HasMethod("gist");
            installation.HasIndex(row => new { row.Site, row.Adopted });
            installation.HasIndex(row => new { row.Site, row.WorkingDay });
            OfSite(installation);
        });
        builder.Entity<DayProductionRow>(day =>
        {
            day.ToTable("day_production", "derived");
            day.HasKey(row => new { row.Site, row.WorkingDay, row.Shift, row.Barge, row.Casing, row.Zone });
            OfSite(day);
        });
        ModelTreatment(builder);
        builder.Entity<PositionCheckRow>(check =>
        {
            check.ToTable("position_check", "derived");
            check.HasKey(row => new { row.Site, row.Sequence });
            OfSite(check);
        });
        ModelProgress(builder);
        ModelSurvey(builder);
    }

    private static void ModelTreatment(ModelBuilder builder)
    {
        builder.Entity<NonConformanceRow>(one =>
        {
            one.ToTable("non_conformance", "derived");
            one.HasKey(row => new { row.Site, row.Number });
            one.Property(row => row.Detail).HasColumnType("jsonb");
            OfSite(one);
        });
        builder.Entity<LotRow>(lot =>
        {
            lot.ToTable("lot", "derived");
            lot.HasKey(row => new { row.Site, row.Number });
            lot.Property(row => row.Detail).HasColumnType("jsonb");
            OfSite(lot);
        });
        builder.Entity<HoldPointRow>(point =>
        {
            point.ToTable("hold_point", "derived");
            point.HasKey(row => new { row.Site, row.Number });
            point.Property(row => row.Detail).HasColumnType("jsonb");
            OfSite(point);
        });
    }

    private static void OfSite<TRow>(EntityTypeBuilder<TRow> entity)
        where TRow : class
        => entity.HasOne<SiteRow>().WithMany().HasForeignKey("Site").OnDelete(DeleteBehavior.Restrict);
}
