using Microsoft.EntityFrameworkCore;
using SiteProgress.Storage.Records;

#pragma warning disable IDE0130 // one context, modelled in a file beside each concept
namespace SiteProgress.Storage;
#pragma warning restore IDE0130

public sealed partial class SiteProgressDb
{
    /// <summary>Sites.</summary>
    public DbSet<SiteRow> Sites => Set<SiteRow>();

    /// <summary>Uploaded files.</summary>
    public DbSet<UploadRow> Uploads => Set<UploadRow>();

    static partial void ModelRecords(ModelBuilder builder)
    {
        builder.Entity<SiteRow>(site =>
        {
            site.ToTable("site", "record");
            site.HasKey(row => row.Site);
            site.Property(row => row.Site).UseIdentityAlwaysColumn();
            site.HasIndex(row => row.Code).IsUnique();
        });
        builder.Entity<SiteRecordRow>(record =>
        {
            record.ToTable("site_record", "record", table =>
            {
                table.HasCheckConstraint("site_record_sequence_from_one", "sequence >= 1");
                table.HasCheckConstraint("site_record_hash_length", "octet_length(hash) = 32");
            });
            record.HasKey(row => new { row.Site, row.Sequence });

            // Decisions stand among many rows of batches; the history of a site is read without walking those.
            record.HasIndex(row => new { row.Site, row.Sequence }, "decision").HasFilter("batch is null");
            record.HasOne<SiteRow>().WithMany().HasForeignKey(row => row.Site).OnDelete(DeleteBehavior.Restrict);
        });
        builder.Entity<UploadRow>(upload =>
        {
            upload.ToTable("upload", "record");
            upload.HasKey(row => new { row.Site, row.Upload });
            upload.HasOne<SiteRow>().WithMany().HasForeignKey(row => row.Site).OnDelete(DeleteBehavior.Restrict);
        });
        builder.Entity<LogSamplesRow>(log =>
        {
            log.ToTable("log_samples", "record");
            log.HasKey(row => new { row.Site, row.Sha256 });
            log.HasOne<SiteRow>().WithMany().HasForeignKey(row => row.Site).OnDelete(DeleteBehavior.Restrict);
        });
        builder.Entity<UploadChunkRow>(chunk =>
        {
            chunk.ToTable("upload_chunk", "record");
            chunk.HasKey(row => new { row.Site, row.Upload, row.Ordinal });

            // Length and hash of an upload are known only after its last piece, so the pieces are written first.
            chunk.HasOne<SiteRow>().WithMany().HasForeignKey(row => row.Site).OnDelete(DeleteBehavior.Restrict);
        });
    }
}
