using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Homestretch.Store.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class OfficialResults : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "results",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Date = table.Column<string>(type: "TEXT", nullable: false),
                    Passed = table.Column<bool>(type: "INTEGER", nullable: false),
                    Score = table.Column<string>(type: "TEXT", nullable: false),
                    CaseKey = table.Column<string>(type: "TEXT", nullable: false),
                    At = table.Column<string>(type: "TEXT", nullable: false),
                    Origin = table.Column<string>(type: "TEXT", nullable: false),
                    OriginFile = table.Column<string>(type: "TEXT", nullable: true),
                    OriginLine = table.Column<int>(type: "INTEGER", nullable: true),
                    RemovedAt = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_results", x => x.Id);
                    table.ForeignKey(
                        name: "FK_results_cases_CaseKey",
                        column: x => x.CaseKey,
                        principalTable: "cases",
                        principalColumn: "Key",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "IX_results_CaseKey",
                table: "results",
                column: "CaseKey");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "results");
        }
    }
}
