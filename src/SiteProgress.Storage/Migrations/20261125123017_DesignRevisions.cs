using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace SiteProgress.Storage.Migrations
{
    /// <inheritdoc />
    public partial class DesignRevisions : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "design_change",
                schema: "derived",
                table: "pile",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<bool>(
                name: "design_change_open",
                schema: "derived",
                table: "pile",
                type: "boolean",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<int>(
                name: "design_revision",
                schema: "derived",
                table: "pile",
                type: "integer",
                nullable: false,
                defaultValue: 0);

            migrationBuilder.AddColumn<int>(
                name: "taken_out_by",
                schema: "derived",
                table: "pile",
                type: "integer",
                nullable: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "design_change",
                schema: "derived",
                table: "pile");

            migrationBuilder.DropColumn(
                name: "design_change_open",
                schema: "derived",
                table: "pile");

            migrationBuilder.DropColumn(
                name: "design_revision",
                schema: "derived",
                table: "pile");

            migrationBuilder.DropColumn(
                name: "taken_out_by",
                schema: "derived",
                table: "pile");
        }
    }
}
