using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace SiteProgress.Storage.Migrations
{
    /// <inheritdoc />
    public partial class Treatment : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<long>(
                name: "accepted_in",
                schema: "derived",
                table: "pile",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "built_while_held",
                schema: "derived",
                table: "pile",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "held_by",
                schema: "derived",
                table: "pile",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "lot",
                schema: "derived",
                table: "pile",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "non_conformance",
                schema: "derived",
                table: "pile",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "reopened",
                schema: "derived",
                table: "pile",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "replaced_by",
                schema: "derived",
                table: "pile",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "replaces",
                schema: "derived",
                table: "pile",
                type: "text",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "hold_point",
                schema: "derived",
                columns: table => new
                {
                    site = table.Column<int>(type: "integer", nullable: false),
                    number = table.Column<int>(type: "integer", nullable: false),
                    waits = table.Column<bool>(type: "boolean", nullable: false),
                    piles_waiting = table.Column<int>(type: "integer", nullable: false),
                    detail = table.Column<string>(type: "jsonb", nullable: false),
                    digest = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_hold_point", x => new { x.site, x.number });
                    table.ForeignKey(
                        name: "FK_hold_point_site_site",
                        column: x => x.site,
                        principalSchema: "record",
                        principalTable: "site",
                        principalColumn: "site",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "lot",
                schema: "derived",
                columns: table => new
                {
                    site = table.Column<int>(type: "integer", nullable: false),
                    number = table.Column<int>(type: "integer", nullable: false),
                    stage = table.Column<short>(type: "smallint", nullable: false),
                    piles = table.Column<int>(type: "integer", nullable: false),
                    submitted_by = table.Column<string>(type: "text", nullable: false),
                    detail = table.Column<string>(type: "jsonb", nullable: false),
                    digest = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_lot", x => new { x.site, x.number });
                    table.ForeignKey(
                        name: "FK_lot_site_site",
                        column: x => x.site,
                        principalSchema: "record",
                        principalTable: "site",
                        principalColumn: "site",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "non_conformance",
                schema: "derived",
                columns: table => new
                {
                    site = table.Column<int>(type: "integer", nullable: false),
                    number = table.Column<int>(type: "integer", nullable: false),
                    stage = table.Column<short>(type: "smallint", nullable: false),
                    disposition = table.Column<short>(type: "smallint", nullable: true),
                    piles = table.Column<string[]>(type: "text[]", nullable: false),
                    due_on = table.Column<DateOnly>(type: "date", nullable: true),
                    proposed_by = table.Column<string>(type: "text", nullable: true),
                    detail = table.Column<string>(type: "jsonb", nullable: false),
                    digest = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_non_conformance", x => new { x.site, x.number });
                    table.ForeignKey(
                        name: "FK_non_conformance_site_site",
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
                name: "hold_point",
                schema: "derived");

            migrationBuilder.DropTable(
                name: "lot",
                schema: "derived");

            migrationBuilder.DropTable(
                name: "non_conformance",
                schema: "derived");

            migrationBuilder.DropColumn(
                name: "accepted_in",
                schema: "derived",
                table: "pile");

            migrationBuilder.DropColumn(
                name: "built_while_held",
                schema: "derived",
                table: "pile");

            migrationBuilder.DropColumn(
                name: "held_by",
                schema: "derived",
                table: "pile");

            migrationBuilder.DropColumn(
                name: "lot",
                schema: "derived",
                table: "pile");

            migrationBuilder.DropColumn(
                name: "non_conformance",
                schema: "derived",
                table: "pile");

            migrationBuilder.DropColumn(
                name: "reopened",
                schema: "derived",
                table: "pile");

            migrationBuilder.DropColumn(
                name: "replaced_by",
                schema: "derived",
                table: "pile");

            migrationBuilder.DropColumn(
                name: "replaces",
                schema: "derived",
                table: "pile");
        }
    }
}
