using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Homestretch.Store.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class Figures : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "FirstDay",
                table: "plans",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "Minutes",
                table: "plans",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "WithPlan",
                table: "plans",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "WithoutStudy",
                table: "plans",
                type: "REAL",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "figures",
                columns: table => new
                {
                    CaseKey = table.Column<string>(type: "TEXT", nullable: false),
                    ExamDay = table.Column<string>(type: "TEXT", nullable: false),
                    HeardOn = table.Column<string>(type: "TEXT", nullable: false),
                    HasLink = table.Column<bool>(type: "INTEGER", nullable: false),
                    HasResult = table.Column<bool>(type: "INTEGER", nullable: false),
                    FirstDay = table.Column<string>(type: "TEXT", nullable: false),
                    ByDay = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_figures", x => x.CaseKey);
                    table.ForeignKey(
                        name: "FK_figures_cases_CaseKey",
                        column: x => x.CaseKey,
                        principalTable: "cases",
                        principalColumn: "Key",
                        onDelete: ReferentialAction.Cascade);
                });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "figures");

            migrationBuilder.DropColumn(
                name: "FirstDay",
                table: "plans");

            migrationBuilder.DropColumn(
                name: "Minutes",
                table: "plans");

            migrationBuilder.DropColumn(
                name: "WithPlan",
                table: "plans");

            migrationBuilder.DropColumn(
                name: "WithoutStudy",
                table: "plans");
        }
    }
}
