using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Homestretch.Store.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class EverythingOfACase : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.RenameColumn(
                name: "ExamName",
                table: "cases",
                newName: "ExamKey");

            migrationBuilder.AddColumn<string>(
                name: "At",
                table: "files",
                type: "TEXT",
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<string>(
                name: "Origin",
                table: "files",
                type: "TEXT",
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<string>(
                name: "OriginFile",
                table: "files",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "OriginLine",
                table: "files",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "RemovedAt",
                table: "files",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "Changes",
                table: "cases",
                type: "INTEGER",
                nullable: false,
                defaultValue: 0L);

            migrationBuilder.CreateTable(
                name: "decisions",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Text = table.Column<string>(type: "TEXT", nullable: false),
                    ExamDay = table.Column<string>(type: "TEXT", nullable: true),
                    Figures = table.Column<string>(type: "TEXT", nullable: false),
                    CaseKey = table.Column<string>(type: "TEXT", nullable: false),
                    At = table.Column<string>(type: "TEXT", nullable: false),
                    Origin = table.Column<string>(type: "TEXT", nullable: false),
                    OriginFile = table.Column<string>(type: "TEXT", nullable: true),
                    OriginLine = table.Column<int>(type: "INTEGER", nullable: true),
                    RemovedAt = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_decisions", x => x.Id);
                    table.ForeignKey(
                        name: "FK_decisions_cases_CaseKey",
                        column: x => x.CaseKey,
                        principalTable: "cases",
                        principalColumn: "Key",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "evidence",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Candidate = table.Column<string>(type: "TEXT", nullable: false),
                    Attempt = table.Column<string>(type: "TEXT", nullable: false),
                    Kind = table.Column<string>(type: "TEXT", nullable: false),
                    Date = table.Column<string>(type: "TEXT", nullable: false),
                    Topic = table.Column<string>(type: "TEXT", nullable: false),
                    Subtopic = table.Column<string>(type: "TEXT", nullable: false),
                    Item = table.Column<string>(type: "TEXT", nullable: false),
                    Correct = table.Column<string>(type: "TEXT", nullable: false),
                    Seconds = table.Column<string>(type: "TEXT", nullable: false),
                    Sure = table.Column<string>(type: "TEXT", nullable: false),
                    Items = table.Column<string>(type: "TEXT", nullable: false),
                    Percent = table.Column<string>(type: "TEXT", nullable: false),
                    Band = table.Column<string>(type: "TEXT", nullable: false),
                    Note = table.Column<string>(type: "TEXT", nullable: false),
                    Chosen = table.Column<string>(type: "TEXT", nullable: false),
                    Key = table.Column<string>(type: "TEXT", nullable: false),
                    AgainstExam = table.Column<string>(type: "TEXT", nullable: false),
                    CaseKey = table.Column<string>(type: "TEXT", nullable: false),
                    At = table.Column<string>(type: "TEXT", nullable: false),
                    Origin = table.Column<string>(type: "TEXT", nullable: false),
                    OriginFile = table.Column<string>(type: "TEXT", nullable: true),
                    OriginLine = table.Column<int>(type: "INTEGER", nullable: true),
                    RemovedAt = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_evidence", x => x.Id);
                    table.ForeignKey(
                        name: "FK_evidence_cases_CaseKey",
                        column: x => x.CaseKey,
                        principalTable: "cases",
                        principalColumn: "Key",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "exams",
                columns: table => new
                {
                    Key = table.Column<string>(type: "TEXT", nullable: false),
                    Name = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_exams", x => x.Key);
                });

            migrationBuilder.CreateTable(
                name: "links",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    PageHash = table.Column<string>(type: "TEXT", nullable: false),
                    FeedHash = table.Column<string>(type: "TEXT", nullable: false),
                    CaseKey = table.Column<string>(type: "TEXT", nullable: false),
                    At = table.Column<string>(type: "TEXT", nullable: false),
                    Origin = table.Column<string>(type: "TEXT", nullable: false),
                    OriginFile = table.Column<string>(type: "TEXT", nullable: true),
                    OriginLine = table.Column<int>(type: "INTEGER", nullable: true),
                    RemovedAt = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_links", x => x.Id);
                    table.ForeignKey(
                        name: "FK_links_cases_CaseKey",
                        column: x => x.CaseKey,
                        principalTable: "cases",
                        principalColumn: "Key",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "plans",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Why = table.Column<string>(type: "TEXT", nullable: false),
                    Document = table.Column<string>(type: "TEXT", nullable: false),
                    CaseKey = table.Column<string>(type: "TEXT", nullable: false),
                    At = table.Column<string>(type: "TEXT", nullable: false),
                    Origin = table.Column<string>(type: "TEXT", nullable: false),
                    OriginFile = table.Column<string>(type: "TEXT", nullable: true),
                    OriginLine = table.Column<int>(type: "INTEGER", nullable: true),
                    RemovedAt = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_plans", x => x.Id);
                    table.ForeignKey(
                        name: "FK_plans_cases_CaseKey",
                        column: x => x.CaseKey,
                        principalTable: "cases",
                        principalColumn: "Key",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "sessions",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Outcome = table.Column<string>(type: "TEXT", nullable: false),
                    Candidate = table.Column<string>(type: "TEXT", nullable: false),
                    Date = table.Column<string>(type: "TEXT", nullable: false),
                    Topic = table.Column<string>(type: "TEXT", nullable: false),
                    Subtopic = table.Column<string>(type: "TEXT", nullable: false),
                    Minutes = table.Column<string>(type: "TEXT", nullable: false),
                    How = table.Column<string>(type: "TEXT", nullable: false),
                    Block = table.Column<string>(type: "TEXT", nullable: false),
                    Note = table.Column<string>(type: "TEXT", nullable: false),
                    PlannedStart = table.Column<string>(type: "TEXT", nullable: true),
                    PlannedMinutes = table.Column<int>(type: "INTEGER", nullable: true),
                    CaseKey = table.Column<string>(type: "TEXT", nullable: false),
                    At = table.Column<string>(type: "TEXT", nullable: false),
                    Origin = table.Column<string>(type: "TEXT", nullable: false),
                    OriginFile = table.Column<string>(type: "TEXT", nullable: true),
                    OriginLine = table.Column<int>(type: "INTEGER", nullable: true),
                    RemovedAt = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_sessions", x => x.Id);
                    table.ForeignKey(
                        name: "FK_sessions_cases_CaseKey",
                        column: x => x.CaseKey,
                        principalTable: "cases",
                        principalColumn: "Key",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "exam_versions",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    ExamKey = table.Column<string>(type: "TEXT", nullable: false),
                    At = table.Column<string>(type: "TEXT", nullable: false),
                    Name = table.Column<string>(type: "TEXT", nullable: false),
                    RemovedAt = table.Column<string>(type: "TEXT", nullable: true),
                    Content = table.Column<byte[]>(type: "BLOB", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_exam_versions", x => x.Id);
                    table.ForeignKey(
                        name: "FK_exam_versions_exams_ExamKey",
                        column: x => x.ExamKey,
                        principalTable: "exams",
                        principalColumn: "Key",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "IX_files_CaseKey",
                table: "files",
                column: "CaseKey");

            migrationBuilder.CreateIndex(
                name: "IX_cases_ExamKey",
                table: "cases",
                column: "ExamKey");

            migrationBuilder.CreateIndex(
                name: "IX_decisions_CaseKey",
                table: "decisions",
                column: "CaseKey");

            migrationBuilder.CreateIndex(
                name: "IX_evidence_CaseKey",
                table: "evidence",
                column: "CaseKey");

            migrationBuilder.CreateIndex(
                name: "IX_exam_versions_ExamKey",
                table: "exam_versions",
                column: "ExamKey");

            migrationBuilder.CreateIndex(
                name: "IX_links_CaseKey",
                table: "links",
                column: "CaseKey");

            migrationBuilder.CreateIndex(
                name: "IX_links_FeedHash",
                table: "links",
                column: "FeedHash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_links_PageHash",
                table: "links",
                column: "PageHash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_plans_CaseKey",
                table: "plans",
                column: "CaseKey");

            migrationBuilder.CreateIndex(
                name: "IX_sessions_CaseKey",
                table: "sessions",
                column: "CaseKey");

            // Cases with the same exam file share an exam. The column was renamed above and still holds the exam's name here. A person's name must not get into an exam's key.
            migrationBuilder.Sql(
                """
                INSERT INTO exams ("Key", "Name")
                SELECT 'exam-' || min(f."Id"), min(c."ExamKey") FROM files f JOIN cases c ON c."Key" = f."CaseKey" WHERE f."Role" = 'Exam' GROUP BY f."Content";
                INSERT INTO exam_versions ("ExamKey", "At", "Name", "Content")
                SELECT e."Key", c."CreatedAt", f."Name", f."Content" FROM exams e JOIN files f ON e."Key" = 'exam-' || f."Id" JOIN cases c ON c."Key" = f."CaseKey";
                INSERT INTO exams ("Key", "Name")
                SELECT 'exam-of-case-' || c.rowid, c."ExamKey" FROM cases c WHERE NOT EXISTS (SELECT 1 FROM files f WHERE f."CaseKey" = c."Key" AND f."Role" = 'Exam');
                UPDATE cases SET "ExamKey" = coalesce(
                    (SELECT v."ExamKey" FROM exam_versions v JOIN files f ON f."Content" = v."Content" WHERE f."CaseKey" = cases."Key" AND f."Role" = 'Exam'),
                    'exam-of-case-' || cases.rowid);
                DELETE FROM files WHERE "Role" = 'Exam';
                UPDATE files SET "At" = (SELECT c."CreatedAt" FROM cases c WHERE c."Key" = files."CaseKey"), "Origin" = 'File', "OriginFile" = "Name";
                """);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder) => throw new System.NotSupportedException("What was kept since would be lost.");
    }
}
