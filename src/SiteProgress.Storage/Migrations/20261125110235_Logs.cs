using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace SiteProgress.Storage.Migrations
{
    /// <inheritdoc />
    public partial class Logs : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "log_samples",
                schema: "record",
                columns: table => new
                {
                    site = table.Column<int>(type: "integer", nullable: false),
                    sha256 = table.Column<string>(type: "text", nullable: false),
                    packed = table.Column<byte[]>(type: "bytea", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_log_samples", x => new { x.site, x.sha256 });
                    table.ForeignKey(
                        name: "FK_log_samples_site_site",
                        column: x => x.site,
                        principalSchema: "record",
                        principalTable: "site",
                        principalColumn: "site",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "pile_log",
                schema: "derived",
                columns: table => new
                {
                    site = table.Column<int>(type: "integer", nullable: false),
                    sequence = table.Column<long>(type: "bigint", nullable: false),
                    batch = table.Column<long>(type: "bigint", nullable: false),
                    record_id = table.Column<string>(type: "text", nullable: true),
                    recorded_number = table.Column<string>(type: "text", nullable: true),
                    barge = table.Column<string>(type: "text", nullable: false),
                    casing = table.Column<int>(type: "integer", nullable: true),
                    first_sample = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    last_sample = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    samples = table.Column<int>(type: "integer", nullable: false),
                    outcome = table.Column<short>(type: "smallint", nullable: false),
                    installation = table.Column<long>(type: "bigint", nullable: true),
                    against = table.Column<string>(type: "text", nullable: true),
                    number = table.Column<string>(type: "text", nullable: true),
                    working_day = table.Column<DateOnly>(type: "date", nullable: true),
                    figures = table.Column<string>(type: "jsonb", nullable: true),
                    digest = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_pile_log", x => new { x.site, x.sequence });
                    table.ForeignKey(
                        name: "FK_pile_log_site_site",
                        column: x => x.site,
                        principalSchema: "record",
                        principalTable: "site",
                        principalColumn: "site",
                        onDelete: ReferentialAction.Restrict);
                });

            AppendOnly.Guard(migrationBuilder, "record.log_samples");

            migrationBuilder.CreateIndex(
                name: "IX_pile_log_site_number",
                schema: "derived",
                table: "pile_log",
                columns: new[] { "site", "number" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "log_samples",
                schema: "record");

            migrationBuilder.DropTable(
                name: "pile_log",
                schema: "derived");
        }
    }
}
