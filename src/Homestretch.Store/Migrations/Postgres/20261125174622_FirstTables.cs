using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace Homestretch.Store.Migrations.Postgres
{
    /// <inheritdoc />
    public partial class FirstTables : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "exams",
                columns: table => new
                {
                    Key = table.Column<string>(type: "text", nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_exams", x => x.Key);
                });

            migrationBuilder.CreateTable(
                name: "cases",
                columns: table => new
                {
                    Key = table.Column<string>(type: "text", nullable: false),
                    Candidate = table.Column<string>(type: "text", nullable: false),
                    ExamKey = table.Column<string>(type: "text", nullable: false),
                    ExamDay = table.Column<string>(type: "text", nullable: false),
                    CreatedAt = table.Column<string>(type: "text", nullable: false),
                    RemovedAt = table.Column<string>(type: "text", nullable: true),
                    Changes = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_cases", x => x.Key);
                    table.ForeignKey(
                        name: "FK_cases_exams_ExamKey",
                        column: x => x.ExamKey,
                        principalTable: "exams",
                        principalColumn: "Key",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "exam_versions",
                columns: table => new
                {
                    Id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    ExamKey = table.Column<string>(type: "text", nullable: false),
                    At = table.Column<string>(type: "text", nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false),
                    RemovedAt = table.Column<string>(type: "text", nullable: true),
                    Content = table.Column<byte[]>(type: "bytea", nullable: false)
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

            migrationBuilder.CreateTable(
                name: "decisions",
                columns: table => new
                {
                    Id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Text = table.Column<string>(type: "text", nullable: false),
                    ExamDay = table.Column<string>(type: "text", nullable: true),
                    Figures = table.Column<string>(type: "text", nullable: false),
                    CaseKey = table.Column<string>(type: "text", nullable: false),
                    At = table.Column<string>(type: "text", nullable: false),
                    Origin = table.Column<string>(type: "text", nullable: false),
                    OriginFile = table.Column<string>(type: "text", nullable: true),
                    OriginLine = table.Column<int>(type: "integer", nullable: true),
                    RemovedAt = table.Column<string>(type: "text", nullable: true)
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
                    Id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Candidate = table.Column<string>(type: "text", nullable: false),
                    Attempt = table.Column<string>(type: "text", nullable: false),
                    Kind = table.Column<string>(type: "text", nullable: false),
                    Date = table.Column<string>(type: "text", nullable: false),
                    Topic = table.Column<string>(type: "text", nullable: false),
                    Subtopic = table.Column<string>(type: "text", nullable: false),
                    Item = table.Column<string>(type: "text", nullable: false),
                    Correct = table.Column<string>(type: "text", nullable: false),
                    Seconds = table.Column<string>(type: "text", nullable: false),
                    Sure = table.Column<string>(type: "text", nullable: false),
                    Items = table.Column<string>(type: "text", nullable: false),
                    Percent = table.Column<string>(type: "text", nullable: false),
                    Band = table.Column<string>(type: "text", nullable: false),
                    Note = table.Column<string>(type: "text", nullable: false),
                    Chosen = table.Column<string>(type: "text", nullable: false),
                    Key = table.Column<string>(type: "text", nullable: false),
                    AgainstExam = table.Column<string>(type: "text", nullable: false),
                    CaseKey = table.Column<string>(type: "text", nullable: false),
                    At = table.Column<string>(type: "text", nullable: false),
                    Origin = table.Column<string>(type: "text", nullable: false),
                    OriginFile = table.Column<string>(type: "text", nullable: true),
                    OriginLine = table.Column<int>(type: "integer", nullable: true),
                    RemovedAt = table.Column<string>(type: "text", nullable: true)
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
                name: "files",
                columns: table => new
                {
                    Id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Role = table.Column<string>(type: "text", nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Content = table.Column<byte[]>(type: "bytea", nullable: false),
                    CaseKey = table.Column<string>(type: "text", nullable: false),
                    At = table.Column<string>(type: "text", nullable: false),
                    Origin = table.Column<string>(type: "text", nullable: false),
                    OriginFile = table.Column<string>(type: "text", nullable: true),
                    OriginLine = table.Column<int>(type: "integer", nullable: true),
                    RemovedAt = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_files", x => x.Id);
                    table.ForeignKey(
                        name: "FK_files_cases_CaseKey",
                        column: x => x.CaseKey,
                        principalTable: "cases",
                        principalColumn: "Key",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "links",
                columns: table => new
                {
                    Id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    PageHash = table.Column<string>(type: "text", nullable: false),
                    FeedHash = table.Column<string>(type: "text", nullable: false),
                    CaseKey = table.Column<string>(type: "text", nullable: false),
                    At = table.Column<string>(type: "text", nullable: false),
                    Origin = table.Column<string>(type: "text", nullable: false),
                    OriginFile = table.Column<string>(type: "text", nullable: true),
                    OriginLine = table.Column<int>(type: "integer", nullable: true),
                    RemovedAt = table.Column<string>(type: "text", nullable: true)
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
                    Id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Why = table.Column<string>(type: "text", nullable: false),
                    Document = table.Column<string>(type: "text", nullable: false),
                    CaseKey = table.Column<string>(type: "text", nullable: false),
                    At = table.Column<string>(type: "text", nullable: false),
                    Origin = table.Column<string>(type: "text", nullable: false),
                    OriginFile = table.Column<string>(type: "text", nullable: true),
                    OriginLine = table.Column<int>(type: "integer", nullable: true),
                    RemovedAt = table.Column<string>(type: "text", nullable: true)
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
                    Id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Outcome = table.Column<string>(type: "text", nullable: false),
                    Candidate = table.Column<string>(type: "text", nullable: false),
                    Date = table.Column<string>(type: "text", nullable: false),
                    Topic = table.Column<string>(type: "text", nullable: false),
                    Subtopic = table.Column<string>(type: "text", nullable: false),
                    Minutes = table.Column<string>(type: "text", nullable: false),
                    How = table.Column<string>(type: "text", nullable: false),
                    Block = table.Column<string>(type: "text", nullable: false),
                    Note = table.Column<string>(type: "text", nullable: false),
                    PlannedStart = table.Column<string>(type: "text", nullable: true),
                    PlannedMinutes = table.Column<int>(type: "integer", nullable: true),
                    CaseKey = table.Column<string>(type: "text", nullable: false),
                    At = table.Column<string>(type: "text", nullable: false),
                    Origin = table.Column<string>(type: "text", nullable: false),
                    OriginFile = table.Column<string>(type: "text", nullable: true),
                    OriginLine = table.Column<int>(type: "integer", nullable: true),
                    RemovedAt = table.Column<string>(type: "text", nullable: true)
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
                name: "IX_files_CaseKey",
                table: "files",
                column: "CaseKey");

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
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "decisions");

            migrationBuilder.DropTable(
                name: "evidence");

            migrationBuilder.DropTable(
                name: "exam_versions");

            migrationBuilder.DropTable(
                name: "files");

            migrationBuilder.DropTable(
                name: "links");

            migrationBuilder.DropTable(
                name: "plans");

            migrationBuilder.DropTable(
                name: "sessions");

            migrationBuilder.DropTable(
                name: "cases");

            migrationBuilder.DropTable(
                name: "exams");
        }
    }
}
