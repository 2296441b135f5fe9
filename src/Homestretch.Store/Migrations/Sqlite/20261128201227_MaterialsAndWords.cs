using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Homestretch.Store.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class MaterialsAndWords : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "Origin",
                table: "exam_versions",
                type: "TEXT",
                nullable: false,
                defaultValue: "File");

            migrationBuilder.CreateTable(
                name: "exam_files",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    ExamKey = table.Column<string>(type: "TEXT", nullable: false),
                    At = table.Column<string>(type: "TEXT", nullable: false),
                    Role = table.Column<string>(type: "TEXT", nullable: false),
                    Name = table.Column<string>(type: "TEXT", nullable: false),
                    RemovedAt = table.Column<string>(type: "TEXT", nullable: true),
                    Content = table.Column<byte[]>(type: "BLOB", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_exam_files", x => x.Id);
                    table.ForeignKey(
                        name: "FK_exam_files_exams_ExamKey",
                        column: x => x.ExamKey,
                        principalTable: "exams",
                        principalColumn: "Key",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "recalls",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Term = table.Column<string>(type: "TEXT", nullable: false),
                    Date = table.Column<string>(type: "TEXT", nullable: false),
                    Outcome = table.Column<string>(type: "TEXT", nullable: false),
                    CaseKey = table.Column<string>(type: "TEXT", nullable: false),
                    At = table.Column<string>(type: "TEXT", nullable: false),
                    Origin = table.Column<string>(type: "TEXT", nullable: false),
                    OriginFile = table.Column<string>(type: "TEXT", nullable: true),
                    OriginLine = table.Column<int>(type: "INTEGER", nullable: true),
                    RemovedAt = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_recalls", x => x.Id);
                    table.ForeignKey(
                        name: "FK_recalls_cases_CaseKey",
                        column: x => x.CaseKey,
                        principalTable: "cases",
                        principalColumn: "Key",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "words",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Term = table.Column<string>(type: "TEXT", nullable: false),
                    Topic = table.Column<string>(type: "TEXT", nullable: false),
                    Definition = table.Column<string>(type: "TEXT", nullable: false),
                    CoachDefinition = table.Column<string>(type: "TEXT", nullable: false),
                    Noted = table.Column<string>(type: "TEXT", nullable: false),
                    CaseKey = table.Column<string>(type: "TEXT", nullable: false),
                    At = table.Column<string>(type: "TEXT", nullable: false),
                    Origin = table.Column<string>(type: "TEXT", nullable: false),
                    OriginFile = table.Column<string>(type: "TEXT", nullable: true),
                    OriginLine = table.Column<int>(type: "INTEGER", nullable: true),
                    RemovedAt = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_words", x => x.Id);
                    table.ForeignKey(
                        name: "FK_words_cases_CaseKey",
                        column: x => x.CaseKey,
                        principalTable: "cases",
                        principalColumn: "Key",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "IX_exam_files_ExamKey",
                table: "exam_files",
                column: "ExamKey");

            migrationBuilder.CreateIndex(
                name: "IX_recalls_CaseKey",
                table: "recalls",
                column: "CaseKey");

            migrationBuilder.CreateIndex(
                name: "IX_words_CaseKey",
                table: "words",
                column: "CaseKey");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "exam_files");

            migrationBuilder.DropTable(
                name: "recalls");

            migrationBuilder.DropTable(
                name: "words");

            migrationBuilder.DropColumn(
                name: "Origin",
                table: "exam_versions");
        }
    }
}
