using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Homestretch.Store.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class CasesOfAnExam : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "IX_files_CaseKey_Position",
                table: "files");

            migrationBuilder.DropColumn(
                name: "Position",
                table: "files");

            migrationBuilder.AddForeignKey(
                name: "FK_cases_exams_ExamKey",
                table: "cases",
                column: "ExamKey",
                principalTable: "exams",
                principalColumn: "Key",
                onDelete: ReferentialAction.Restrict);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder) => throw new System.NotSupportedException("What was kept since would be lost.");
    }
}
