using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace SiteProgress.Storage.Migrations
{
    /// <inheritdoc />
    public partial class Corrections : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<long>(
                name: "position_correction",
                schema: "derived",
                table: "installation",
                type: "bigint",
                nullable: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "position_correction",
                schema: "derived",
                table: "installation");
        }
    }
}
