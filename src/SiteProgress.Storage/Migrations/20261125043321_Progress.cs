using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace SiteProgress.Storage.Migrations
{
    /// <inheritdoc />
    public partial class Progress : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "daily_report",
                schema: "derived",
                columns: table => new
                {
                    site = table.Column<int>(type: "integer", nullable: false),
                    working_day = table.Column<DateOnly>(type: "date", nullable: false),
                    issue = table.Column<int>(type: "integer", nullable: false),
                    sequence = table.Column<long>(type: "bigint", nullable: false),
                    content = table.Column<string>(type: "text", nullable: false),
                    head_sequence = table.Column<long>(type: "bigint", nullable: false),
                    head_hash = table.Column<string>(type: "text", nullable: false),
                    reason = table.Column<string>(type: "text", nullable: true),
                    issued_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    issued_by = table.Column<string>(type: "text", nullable: false),
                    signed_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    signed_by = table.Column<string>(type: "text", nullable: true),
                    countersigned_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    countersigned_by = table.Column<string>(type: "text", nullable: true),
                    disputes = table.Column<string>(type: "jsonb", nullable: false),
                    digest = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_daily_report", x => new { x.site, x.working_day, x.issue });
                    table.ForeignKey(
                        name: "FK_daily_report_site_site",
                        column: x => x.site,
                        principalSchema: "record",
                        principalTable: "site",
                        principalColumn: "site",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "day_notes",
                schema: "derived",
                columns: table => new
                {
                    site = table.Column<int>(type: "integer", nullable: false),
                    working_day = table.Column<DateOnly>(type: "date", nullable: false),
                    notes = table.Column<string>(type: "jsonb", nullable: false),
                    sequence = table.Column<long>(type: "bigint", nullable: false),
                    recorded_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    recorded_by = table.Column<string>(type: "text", nullable: false),
                    digest = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_day_notes", x => new { x.site, x.working_day });
                    table.ForeignKey(
                        name: "FK_day_notes_site_site",
                        column: x => x.site,
                        principalSchema: "record",
                        principalTable: "site",
                        principalColumn: "site",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "diary_line",
                schema: "derived",
                columns: table => new
                {
                    site = table.Column<int>(type: "integer", nullable: false),
                    working_day = table.Column<DateOnly>(type: "date", nullable: false),
                    barge = table.Column<string>(type: "text", nullable: false),
                    place = table.Column<int>(type: "integer", nullable: false),
                    activity = table.Column<string>(type: "text", nullable: false),
                    cause = table.Column<string>(type: "text", nullable: true),
                    borne_by = table.Column<string>(type: "text", nullable: true),
                    hours = table.Column<double>(type: "double precision", nullable: false),
                    remark = table.Column<string>(type: "text", nullable: true),
                    sequence = table.Column<long>(type: "bigint", nullable: false),
                    digest = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_diary_line", x => new { x.site, x.working_day, x.barge, x.place });
                    table.ForeignKey(
                        name: "FK_diary_line_site_site",
                        column: x => x.site,
                        principalSchema: "record",
                        principalTable: "site",
                        principalColumn: "site",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "planned_progress",
                schema: "derived",
                columns: table => new
                {
                    site = table.Column<int>(type: "integer", nullable: false),
                    zone = table.Column<string>(type: "text", nullable: false),
                    day = table.Column<DateOnly>(type: "date", nullable: false),
                    cumulative_piles = table.Column<int>(type: "integer", nullable: false),
                    digest = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_planned_progress", x => new { x.site, x.zone, x.day });
                    table.ForeignKey(
                        name: "FK_planned_progress_site_site",
                        column: x => x.site,
                        principalSchema: "record",
                        principalTable: "site",
                        principalColumn: "site",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "work_plan",
                schema: "derived",
                columns: table => new
                {
                    site = table.Column<int>(type: "integer", nullable: false),
                    sequence = table.Column<long>(type: "bigint", nullable: false),
                    plan = table.Column<string>(type: "jsonb", nullable: false),
                    reason = table.Column<string>(type: "text", nullable: false),
                    recorded_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    recorded_by = table.Column<string>(type: "text", nullable: false),
                    digest = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_work_plan", x => new { x.site, x.sequence });
                    table.ForeignKey(
                        name: "FK_work_plan_site_site",
                        column: x => x.site,
                        principalSchema: "record",
                        principalTable: "site",
                        principalColumn: "site",
                        onDelete: ReferentialAction.Restrict);
                });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "daily_report",
                schema: "derived");

            migrationBuilder.DropTable(
                name: "day_notes",
                schema: "derived");

            migrationBuilder.DropTable(
                name: "diary_line",
                schema: "derived");

            migrationBuilder.DropTable(
                name: "planned_progress",
                schema: "derived");

            migrationBuilder.DropTable(
                name: "work_plan",
                schema: "derived");
        }
    }
}
