using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace SiteProgress.Storage.Migrations
{
    /// <inheritdoc />
    public partial class Senders : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<long>(
                name: "calibration",
                schema: "derived",
                table: "installation",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "clock_correction",
                schema: "derived",
                table: "installation",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "coordinate_epoch",
                schema: "derived",
                table: "installation",
                type: "double precision",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "correction_age",
                schema: "derived",
                table: "installation",
                type: "double precision",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "levels",
                schema: "derived",
                table: "installation",
                type: "jsonb",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "problems",
                schema: "derived",
                table: "batch",
                type: "jsonb",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "sender",
                schema: "derived",
                table: "batch",
                type: "text",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "calibration",
                schema: "derived",
                columns: table => new
                {
                    site = table.Column<int>(type: "integer", nullable: false),
                    sequence = table.Column<long>(type: "bigint", nullable: false),
                    batch = table.Column<long>(type: "bigint", nullable: false),
                    barge = table.Column<string>(type: "text", nullable: false),
                    casing = table.Column<int>(type: "integer", nullable: true),
                    valid_from = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    valid_until = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    values = table.Column<string>(type: "jsonb", nullable: false),
                    installations = table.Column<int>(type: "integer", nullable: false),
                    digest = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_calibration", x => new { x.site, x.sequence });
                    table.ForeignKey(
                        name: "FK_calibration_site_site",
                        column: x => x.site,
                        principalSchema: "record",
                        principalTable: "site",
                        principalColumn: "site",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "clock_correction",
                schema: "derived",
                columns: table => new
                {
                    site = table.Column<int>(type: "integer", nullable: false),
                    sequence = table.Column<long>(type: "bigint", nullable: false),
                    barge = table.Column<string>(type: "text", nullable: false),
                    sender = table.Column<string>(type: "text", nullable: true),
                    span_from = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    span_until = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    ahead = table.Column<double>(type: "double precision", nullable: false),
                    reason = table.Column<string>(type: "text", nullable: false),
                    installations = table.Column<int>(type: "integer", nullable: false),
                    recorded_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    recorded_by = table.Column<string>(type: "text", nullable: false),
                    digest = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_clock_correction", x => new { x.site, x.sequence });
                    table.ForeignKey(
                        name: "FK_clock_correction_site_site",
                        column: x => x.site,
                        principalSchema: "record",
                        principalTable: "site",
                        principalColumn: "site",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "gauge",
                schema: "derived",
                columns: table => new
                {
                    site = table.Column<int>(type: "integer", nullable: false),
                    sequence = table.Column<long>(type: "bigint", nullable: false),
                    gauge = table.Column<string>(type: "text", nullable: false),
                    valid_from = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    zero_level = table.Column<double>(type: "double precision", nullable: false),
                    offset_to_site = table.Column<double>(type: "double precision", nullable: false),
                    largest_gap = table.Column<double>(type: "double precision", nullable: false),
                    evidence = table.Column<string>(type: "text", nullable: false),
                    reason = table.Column<string>(type: "text", nullable: false),
                    recorded_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    recorded_by = table.Column<string>(type: "text", nullable: false),
                    digest = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_gauge", x => new { x.site, x.sequence });
                    table.ForeignKey(
                        name: "FK_gauge_site_site",
                        column: x => x.site,
                        principalSchema: "record",
                        principalTable: "site",
                        principalColumn: "site",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "gauge_check",
                schema: "derived",
                columns: table => new
                {
                    site = table.Column<int>(type: "integer", nullable: false),
                    sequence = table.Column<long>(type: "bigint", nullable: false),
                    gauge = table.Column<string>(type: "text", nullable: false),
                    checked_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    level = table.Column<double>(type: "double precision", nullable: false),
                    gauge_level = table.Column<double>(type: "double precision", nullable: true),
                    missing = table.Column<string>(type: "text", nullable: true),
                    method = table.Column<string>(type: "text", nullable: false),
                    uncertainty = table.Column<double>(type: "double precision", nullable: false),
                    recorded_by = table.Column<string>(type: "text", nullable: false),
                    digest = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_gauge_check", x => new { x.site, x.sequence });
                    table.ForeignKey(
                        name: "FK_gauge_check_site_site",
                        column: x => x.site,
                        principalSchema: "record",
                        principalTable: "site",
                        principalColumn: "site",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "sender_key",
                schema: "derived",
                columns: table => new
                {
                    site = table.Column<int>(type: "integer", nullable: false),
                    key = table.Column<Guid>(type: "uuid", nullable: false),
                    sender = table.Column<string>(type: "text", nullable: false),
                    barges = table.Column<string[]>(type: "text[]", nullable: false),
                    sequence = table.Column<long>(type: "bigint", nullable: false),
                    made_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    made_by = table.Column<string>(type: "text", nullable: false),
                    withdrawn_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    withdrawn_by = table.Column<string>(type: "text", nullable: true),
                    withdrawn_because = table.Column<string>(type: "text", nullable: true),
                    digest = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_sender_key", x => new { x.site, x.key });
                    table.ForeignKey(
                        name: "FK_sender_key_site_site",
                        column: x => x.site,
                        principalSchema: "record",
                        principalTable: "site",
                        principalColumn: "site",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "sender_secret",
                schema: "account",
                columns: table => new
                {
                    hash = table.Column<byte[]>(type: "bytea", nullable: false),
                    site = table.Column<int>(type: "integer", nullable: false),
                    key = table.Column<Guid>(type: "uuid", nullable: false),
                    last_used = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_sender_secret", x => x.hash);
                });

            migrationBuilder.CreateTable(
                name: "water_day",
                schema: "derived",
                columns: table => new
                {
                    site = table.Column<int>(type: "integer", nullable: false),
                    gauge = table.Column<string>(type: "text", nullable: false),
                    day = table.Column<DateOnly>(type: "date", nullable: false),
                    readings = table.Column<int>(type: "integer", nullable: false),
                    first_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    last_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    lowest = table.Column<double>(type: "double precision", nullable: false),
                    highest = table.Column<double>(type: "double precision", nullable: false),
                    largest_gap = table.Column<double>(type: "double precision", nullable: false),
                    digest = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_water_day", x => new { x.site, x.gauge, x.day });
                    table.ForeignKey(
                        name: "FK_water_day_site_site",
                        column: x => x.site,
                        principalSchema: "record",
                        principalTable: "site",
                        principalColumn: "site",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "decision",
                schema: "record",
                table: "site_record",
                columns: new[] { "site", "sequence" },
                filter: "batch is null");

            migrationBuilder.CreateIndex(
                name: "IX_sender_secret_site_key",
                schema: "account",
                table: "sender_secret",
                columns: new[] { "site", "key" },
                unique: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "calibration",
                schema: "derived");

            migrationBuilder.DropTable(
                name: "clock_correction",
                schema: "derived");

            migrationBuilder.DropTable(
                name: "gauge",
                schema: "derived");

            migrationBuilder.DropTable(
                name: "gauge_check",
                schema: "derived");

            migrationBuilder.DropTable(
                name: "sender_key",
                schema: "derived");

            migrationBuilder.DropTable(
                name: "sender_secret",
                schema: "account");

            migrationBuilder.DropTable(
                name: "water_day",
                schema: "derived");

            migrationBuilder.DropIndex(
                name: "decision",
                schema: "record",
                table: "site_record");

            migrationBuilder.DropColumn(
                name: "calibration",
                schema: "derived",
                table: "installation");

            migrationBuilder.DropColumn(
                name: "clock_correction",
                schema: "derived",
                table: "installation");

            migrationBuilder.DropColumn(
                name: "coordinate_epoch",
                schema: "derived",
                table: "installation");

            migrationBuilder.DropColumn(
                name: "correction_age",
                schema: "derived",
                table: "installation");

            migrationBuilder.DropColumn(
                name: "levels",
                schema: "derived",
                table: "installation");

            migrationBuilder.DropColumn(
                name: "problems",
                schema: "derived",
                table: "batch");

            migrationBuilder.DropColumn(
                name: "sender",
                schema: "derived",
                table: "batch");
        }
    }
}
