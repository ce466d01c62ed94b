using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace SiteProgress.Storage.Migrations
{
    /// <inheritdoc />
    public partial class PositionLimits : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<double>(
                name: "across_limit",
                schema: "derived",
                table: "pile",
                type: "double precision",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "alerts",
                schema: "derived",
                table: "pile",
                type: "text",
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<double>(
                name: "along_limit",
                schema: "derived",
                table: "pile",
                type: "double precision",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "limit_share",
                schema: "derived",
                table: "pile",
                type: "double precision",
                nullable: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "across_limit",
                schema: "derived",
                table: "pile");

            migrationBuilder.DropColumn(
                name: "alerts",
                schema: "derived",
                table: "pile");

            migrationBuilder.DropColumn(
                name: "along_limit",
                schema: "derived",
                table: "pile");

            migrationBuilder.DropColumn(
                name: "limit_share",
                schema: "derived",
                table: "pile");
        }
    }
}
