using System;
using Microsoft.EntityFrameworkCore.Migrations;
using NetTopologySuite.Geometries;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace SiteProgress.Storage.Migrations
{
    /// <inheritdoc />
    public partial class Initial : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.EnsureSchema(
                name: "account");

            migrationBuilder.EnsureSchema(
                name: "derived");

            migrationBuilder.EnsureSchema(
                name: "record");

            migrationBuilder.AlterDatabase()
                .Annotation("Npgsql:PostgresExtension:postgis", ",,");

            migrationBuilder.CreateTable(
                name: "account",
                schema: "account",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    display_name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    closed = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    user_name = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    normalized_user_name = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    email = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    normalized_email = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    email_confirmed = table.Column<bool>(type: "boolean", nullable: false),
                    password_hash = table.Column<string>(type: "text", nullable: true),
                    security_stamp = table.Column<string>(type: "text", nullable: true),
                    concurrency_stamp = table.Column<string>(type: "text", nullable: true),
                    phone_number = table.Column<string>(type: "text", nullable: true),
                    phone_number_confirmed = table.Column<bool>(type: "boolean", nullable: false),
                    two_factor_enabled = table.Column<bool>(type: "boolean", nullable: false),
                    lockout_end = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    lockout_enabled = table.Column<bool>(type: "boolean", nullable: false),
                    access_failed_count = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_account", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "data_protection_key",
                schema: "account",
                columns: table => new
                {
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    friendly_name = table.Column<string>(type: "text", nullable: true),
                    xml = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_data_protection_key", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "site",
                schema: "record",
                columns: table => new
                {
                    site = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityAlwaysColumn),
                    code = table.Column<string>(type: "text", nullable: false),
                    opened_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_site", x => x.site);
                });

            migrationBuilder.CreateTable(
                name: "account_claim",
                schema: "account",
                columns: table => new
                {
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    user_id = table.Column<Guid>(type: "uuid", nullable: false),
                    claim_type = table.Column<string>(type: "text", nullable: true),
                    claim_value = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_account_claim", x => x.id);
                    table.ForeignKey(
                        name: "FK_account_claim_account_user_id",
                        column: x => x.user_id,
                        principalSchema: "account",
                        principalTable: "account",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "account_login",
                schema: "account",
                columns: table => new
                {
                    login_provider = table.Column<string>(type: "text", nullable: false),
                    provider_key = table.Column<string>(type: "text", nullable: false),
                    provider_display_name = table.Column<string>(type: "text", nullable: true),
                    user_id = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_account_login", x => new { x.login_provider, x.provider_key });
                    table.ForeignKey(
                        name: "FK_account_login_account_user_id",
                        column: x => x.user_id,
                        principalSchema: "account",
                        principalTable: "account",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "account_token",
                schema: "account",
                columns: table => new
                {
                    user_id = table.Column<Guid>(type: "uuid", nullable: false),
                    login_provider = table.Column<string>(type: "text", nullable: false),
                    name = table.Column<string>(type: "text", nullable: false),
                    value = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_account_token", x => new { x.user_id, x.login_provider, x.name });
                    table.ForeignKey(
                        name: "FK_account_token_account_user_id",
                        column: x => x.user_id,
                        principalSchema: "account",
                        principalTable: "account",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "one_use_link",
                schema: "account",
                columns: table => new
                {
                    hash = table.Column<byte[]>(type: "bytea", nullable: false),
                    purpose = table.Column<int>(type: "integer", nullable: false),
                    account = table.Column<Guid>(type: "uuid", nullable: true),
                    expires = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    used = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_one_use_link", x => x.hash);
                    table.ForeignKey(
                        name: "FK_one_use_link_account_account",
                        column: x => x.account,
                        principalSchema: "account",
                        principalTable: "account",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "personal_token",
                schema: "account",
                columns: table => new
                {
                    hash = table.Column<byte[]>(type: "bytea", nullable: false),
                    account = table.Column<Guid>(type: "uuid", nullable: false),
                    name = table.Column<string>(type: "character varying(100)", maxLength: 100, nullable: false),
                    created = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    last_used_day = table.Column<DateOnly>(type: "date", nullable: true),
                    revoked = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_personal_token", x => x.hash);
                    table.ForeignKey(
                        name: "FK_personal_token_account_account",
                        column: x => x.account,
                        principalSchema: "account",
                        principalTable: "account",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "batch",
                schema: "derived",
                columns: table => new
                {
                    site = table.Column<int>(type: "integer", nullable: false),
                    batch = table.Column<long>(type: "bigint", nullable: false),
                    upload = table.Column<Guid>(type: "uuid", nullable: false),
                    file_name = table.Column<string>(type: "text", nullable: false),
                    sha256 = table.Column<string>(type: "text", nullable: false),
                    content = table.Column<short>(type: "smallint", nullable: false),
                    rows_read = table.Column<int>(type: "integer", nullable: false),
                    rows_recorded = table.Column<int>(type: "integer", nullable: false),
                    lines_left_out = table.Column<long[]>(type: "bigint[]", nullable: false),
                    assumptions = table.Column<string[]>(type: "text[]", nullable: false),
                    recorded_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    recorded_by = table.Column<string>(type: "text", nullable: false),
                    withdrawn_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    withdrawn_by = table.Column<string>(type: "text", nullable: true),
                    withdrawn_because = table.Column<string>(type: "text", nullable: true),
                    digest = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_batch", x => new { x.site, x.batch });
                    table.ForeignKey(
                        name: "FK_batch_site_site",
                        column: x => x.site,
                        principalSchema: "record",
                        principalTable: "site",
                        principalColumn: "site",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "day_production",
                schema: "derived",
                columns: table => new
                {
                    site = table.Column<int>(type: "integer", nullable: false),
                    working_day = table.Column<DateOnly>(type: "date", nullable: false),
                    shift = table.Column<string>(type: "text", nullable: false),
                    barge = table.Column<string>(type: "text", nullable: false),
                    casing = table.Column<int>(type: "integer", nullable: false),
                    zone = table.Column<string>(type: "text", nullable: false),
                    attempts = table.Column<int>(type: "integer", nullable: false),
                    piles = table.Column<int>(type: "integer", nullable: false),
                    metres = table.Column<double>(type: "double precision", nullable: false),
                    sand_in_casing = table.Column<double>(type: "double precision", nullable: false),
                    sand_in_pile = table.Column<double>(type: "double precision", nullable: false),
                    piles_with_finding = table.Column<int>(type: "integer", nullable: false),
                    digest = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_day_production", x => new { x.site, x.working_day, x.shift, x.barge, x.casing, x.zone });
                    table.ForeignKey(
                        name: "FK_day_production_site_site",
                        column: x => x.site,
                        principalSchema: "record",
                        principalTable: "site",
                        principalColumn: "site",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "installation",
                schema: "derived",
                columns: table => new
                {
                    site = table.Column<int>(type: "integer", nullable: false),
                    sequence = table.Column<long>(type: "bigint", nullable: false),
                    batch = table.Column<long>(type: "bigint", nullable: false),
                    line = table.Column<long>(type: "bigint", nullable: false),
                    record_id = table.Column<string>(type: "text", nullable: true),
                    recorded_number = table.Column<string>(type: "text", nullable: false),
                    match = table.Column<short>(type: "smallint", nullable: false),
                    adopted = table.Column<string>(type: "text", nullable: true),
                    nearest = table.Column<string>(type: "text", nullable: true),
                    distance_to_named = table.Column<double>(type: "double precision", nullable: true),
                    distance_to_nearest = table.Column<double>(type: "double precision", nullable: true),
                    same_as = table.Column<long>(type: "bigint", nullable: true),
                    waits_for_decision = table.Column<bool>(type: "boolean", nullable: false),
                    stands = table.Column<bool>(type: "boolean", nullable: false),
                    barge = table.Column<string>(type: "text", nullable: false),
                    casing = table.Column<int>(type: "integer", nullable: true),
                    set_up = table.Column<string>(type: "text", nullable: true),
                    started_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    deepest_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    ended_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    working_day = table.Column<DateOnly>(type: "date", nullable: true),
                    shift = table.Column<string>(type: "text", nullable: true),
                    adjustment_revision = table.Column<int>(type: "integer", nullable: false),
                    frame = table.Column<short>(type: "smallint", nullable: true),
                    touch_down_x = table.Column<double>(type: "double precision", nullable: true),
                    touch_down_y = table.Column<double>(type: "double precision", nullable: true),
                    deepest_x = table.Column<double>(type: "double precision", nullable: true),
                    deepest_y = table.Column<double>(type: "double precision", nullable: true),
                    latitude = table.Column<double>(type: "double precision", nullable: true),
                    longitude = table.Column<double>(type: "double precision", nullable: true),
                    place = table.Column<Point>(type: "geometry(Point)", nullable: true),
                    heading = table.Column<double>(type: "double precision", nullable: true),
                    heading_north = table.Column<short>(type: "smallint", nullable: true),
                    top = table.Column<double>(type: "double precision", nullable: true),
                    tip = table.Column<double>(type: "double precision", nullable: true),
                    sand_in_casing = table.Column<double>(type: "double precision", nullable: true),
                    inclination = table.Column<double>(type: "double precision", nullable: true),
                    stop_rate = table.Column<double>(type: "double precision", nullable: true),
                    fix = table.Column<short>(type: "smallint", nullable: true),
                    uncertainty = table.Column<double>(type: "double precision", nullable: true),
                    outcome = table.Column<short>(type: "smallint", nullable: false),
                    remark = table.Column<string>(type: "text", nullable: true),
                    digest = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_installation", x => new { x.site, x.sequence });
                    table.ForeignKey(
                        name: "FK_installation_site_site",
                        column: x => x.site,
                        principalSchema: "record",
                        principalTable: "site",
                        principalColumn: "site",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "pile",
                schema: "derived",
                columns: table => new
                {
                    site = table.Column<int>(type: "integer", nullable: false),
                    number = table.Column<string>(type: "text", nullable: false),
                    zone = table.Column<string>(type: "text", nullable: false),
                    state = table.Column<short>(type: "smallint", nullable: false),
                    design_sequence = table.Column<long>(type: "bigint", nullable: false),
                    design_x = table.Column<double>(type: "double precision", nullable: false),
                    design_y = table.Column<double>(type: "double precision", nullable: false),
                    latitude = table.Column<double>(type: "double precision", nullable: false),
                    longitude = table.Column<double>(type: "double precision", nullable: false),
                    design_place = table.Column<Point>(type: "geometry(Point)", nullable: false),
                    design_diameter = table.Column<double>(type: "double precision", nullable: false),
                    design_top = table.Column<double>(type: "double precision", nullable: false),
                    design_tip = table.Column<double>(type: "double precision", nullable: true),
                    least_length = table.Column<double>(type: "double precision", nullable: true),
                    remark = table.Column<string>(type: "text", nullable: true),
                    attempts = table.Column<int>(type: "integer", nullable: false),
                    standing = table.Column<long[]>(type: "bigint[]", nullable: false),
                    judged_installation = table.Column<long>(type: "bigint", nullable: true),
                    judged_moment = table.Column<short>(type: "smallint", nullable: true),
                    as_built_x = table.Column<double>(type: "double precision", nullable: true),
                    as_built_y = table.Column<double>(type: "double precision", nullable: true),
                    as_built_place = table.Column<Point>(type: "geometry(Point)", nullable: true),
                    deviation_east = table.Column<double>(type: "double precision", nullable: true),
                    deviation_north = table.Column<double>(type: "double precision", nullable: true),
                    deviation_along = table.Column<double>(type: "double precision", nullable: true),
                    deviation_across = table.Column<double>(type: "double precision", nullable: true),
                    deviation_radial = table.Column<double>(type: "double precision", nullable: true),
                    uncertainty = table.Column<double>(type: "double precision", nullable: true),
                    comparable = table.Column<bool>(type: "boolean", nullable: false),
                    radial_limit = table.Column<double>(type: "double precision", nullable: false),
                    beyond_alert = table.Column<bool>(type: "boolean", nullable: false),
                    as_built_top = table.Column<double>(type: "double precision", nullable: true),
                    as_built_tip = table.Column<double>(type: "double precision", nullable: true),
                    length = table.Column<double>(type: "double precision", nullable: true),
                    sand_in_casing = table.Column<double>(type: "double precision", nullable: true),
                    sand_in_pile = table.Column<double>(type: "double precision", nullable: true),
                    sand_design = table.Column<double>(type: "double precision", nullable: true),
                    mean_diameter = table.Column<double>(type: "double precision", nullable: true),
                    working_day = table.Column<DateOnly>(type: "date", nullable: true),
                    shift = table.Column<string>(type: "text", nullable: true),
                    ended_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    barge = table.Column<string>(type: "text", nullable: true),
                    casing = table.Column<int>(type: "integer", nullable: true),
                    set_up = table.Column<string>(type: "text", nullable: true),
                    findings = table.Column<string>(type: "text", nullable: false),
                    not_judged = table.Column<string>(type: "text", nullable: false),
                    checks = table.Column<string>(type: "jsonb", nullable: false),
                    digest = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_pile", x => new { x.site, x.number });
                    table.ForeignKey(
                        name: "FK_pile_site_site",
                        column: x => x.site,
                        principalSchema: "record",
                        principalTable: "site",
                        principalColumn: "site",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "position_check",
                schema: "derived",
                columns: table => new
                {
                    site = table.Column<int>(type: "integer", nullable: false),
                    sequence = table.Column<long>(type: "bigint", nullable: false),
                    batch = table.Column<long>(type: "bigint", nullable: false),
                    measured_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    barge = table.Column<string>(type: "text", nullable: false),
                    casing = table.Column<int>(type: "integer", nullable: false),
                    number = table.Column<string>(type: "text", nullable: true),
                    difference_east = table.Column<double>(type: "double precision", nullable: false),
                    difference_north = table.Column<double>(type: "double precision", nullable: false),
                    method = table.Column<string>(type: "text", nullable: false),
                    uncertainty = table.Column<double>(type: "double precision", nullable: false),
                    digest = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_position_check", x => new { x.site, x.sequence });
                    table.ForeignKey(
                        name: "FK_position_check_site_site",
                        column: x => x.site,
                        principalSchema: "record",
                        principalTable: "site",
                        principalColumn: "site",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "site_record",
                schema: "record",
                columns: table => new
                {
                    site = table.Column<int>(type: "integer", nullable: false),
                    sequence = table.Column<long>(type: "bigint", nullable: false),
                    kind = table.Column<short>(type: "smallint", nullable: false),
                    recorded_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    recorded_by = table.Column<string>(type: "text", nullable: false),
                    batch = table.Column<long>(type: "bigint", nullable: true),
                    body = table.Column<byte[]>(type: "bytea", nullable: false),
                    hash = table.Column<byte[]>(type: "bytea", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_site_record", x => new { x.site, x.sequence });
                    table.CheckConstraint("site_record_hash_length", "octet_length(hash) = 32");
                    table.CheckConstraint("site_record_sequence_from_one", "sequence >= 1");
                    table.ForeignKey(
                        name: "FK_site_record_site_site",
                        column: x => x.site,
                        principalSchema: "record",
                        principalTable: "site",
                        principalColumn: "site",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "site_role",
                schema: "derived",
                columns: table => new
                {
                    site = table.Column<int>(type: "integer", nullable: false),
                    account = table.Column<Guid>(type: "uuid", nullable: false),
                    role = table.Column<short>(type: "smallint", nullable: false),
                    digest = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_site_role", x => new { x.site, x.account });
                    table.ForeignKey(
                        name: "FK_site_role_site_site",
                        column: x => x.site,
                        principalSchema: "record",
                        principalTable: "site",
                        principalColumn: "site",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "site_state",
                schema: "derived",
                columns: table => new
                {
                    site = table.Column<int>(type: "integer", nullable: false),
                    sequence = table.Column<long>(type: "bigint", nullable: false),
                    hash = table.Column<byte[]>(type: "bytea", nullable: false),
                    rules_version = table.Column<int>(type: "integer", nullable: false),
                    settings = table.Column<string>(type: "jsonb", nullable: true),
                    drawing = table.Column<string>(type: "jsonb", nullable: true),
                    adjustment = table.Column<string>(type: "jsonb", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_site_state", x => x.site);
                    table.ForeignKey(
                        name: "FK_site_state_site_site",
                        column: x => x.site,
                        principalSchema: "record",
                        principalTable: "site",
                        principalColumn: "site",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "upload",
                schema: "record",
                columns: table => new
                {
                    site = table.Column<int>(type: "integer", nullable: false),
                    upload = table.Column<Guid>(type: "uuid", nullable: false),
                    file_name = table.Column<string>(type: "text", nullable: false),
                    byte_length = table.Column<long>(type: "bigint", nullable: false),
                    sha256 = table.Column<string>(type: "text", nullable: false),
                    uploaded_by = table.Column<Guid>(type: "uuid", nullable: false),
                    uploaded_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_upload", x => new { x.site, x.upload });
                    table.ForeignKey(
                        name: "FK_upload_site_site",
                        column: x => x.site,
                        principalSchema: "record",
                        principalTable: "site",
                        principalColumn: "site",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "upload_chunk",
                schema: "record",
                columns: table => new
                {
                    site = table.Column<int>(type: "integer", nullable: false),
                    upload = table.Column<Guid>(type: "uuid", nullable: false),
                    ordinal = table.Column<int>(type: "integer", nullable: false),
                    bytes = table.Column<byte[]>(type: "bytea", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_upload_chunk", x => new { x.site, x.upload, x.ordinal });
                    table.ForeignKey(
                        name: "FK_upload_chunk_site_site",
                        column: x => x.site,
                        principalSchema: "record",
                        principalTable: "site",
                        principalColumn: "site",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "EmailIndex",
                schema: "account",
                table: "account",
                column: "normalized_email");

            migrationBuilder.CreateIndex(
                name: "UserNameIndex",
                schema: "account",
                table: "account",
                column: "normalized_user_name",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_account_claim_user_id",
                schema: "account",
                table: "account_claim",
                column: "user_id");

            migrationBuilder.CreateIndex(
                name: "IX_account_login_user_id",
                schema: "account",
                table: "account_login",
                column: "user_id");

            migrationBuilder.CreateIndex(
                name: "IX_installation_place",
                schema: "derived",
                table: "installation",
                column: "place")
                .Annotation("Npgsql:IndexMethod", "gist");

            migrationBuilder.CreateIndex(
                name: "IX_installation_site_adopted",
                schema: "derived",
                table: "installation",
                columns: new[] { "site", "adopted" });

            migrationBuilder.CreateIndex(
                name: "IX_installation_site_working_day",
                schema: "derived",
                table: "installation",
                columns: new[] { "site", "working_day" });

            migrationBuilder.CreateIndex(
                name: "IX_one_use_link_account",
                schema: "account",
                table: "one_use_link",
                column: "account");

            migrationBuilder.CreateIndex(
                name: "IX_personal_token_account",
                schema: "account",
                table: "personal_token",
                column: "account");

            migrationBuilder.CreateIndex(
                name: "IX_pile_design_place",
                schema: "derived",
                table: "pile",
                column: "design_place")
                .Annotation("Npgsql:IndexMethod", "gist");

            migrationBuilder.CreateIndex(
                name: "IX_pile_site_state",
                schema: "derived",
                table: "pile",
                columns: new[] { "site", "state" });

            migrationBuilder.CreateIndex(
                name: "IX_pile_site_working_day",
                schema: "derived",
                table: "pile",
                columns: new[] { "site", "working_day" });

            migrationBuilder.CreateIndex(
                name: "IX_site_code",
                schema: "record",
                table: "site",
                column: "code",
                unique: true);

            AppendOnly.Guard(migrationBuilder);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "account_claim",
                schema: "account");

            migrationBuilder.DropTable(
                name: "account_login",
                schema: "account");

            migrationBuilder.DropTable(
                name: "account_token",
                schema: "account");

            migrationBuilder.DropTable(
                name: "batch",
                schema: "derived");

            migrationBuilder.DropTable(
                name: "data_protection_key",
                schema: "account");

            migrationBuilder.DropTable(
                name: "day_production",
                schema: "derived");

            migrationBuilder.DropTable(
                name: "installation",
                schema: "derived");

            migrationBuilder.DropTable(
                name: "one_use_link",
                schema: "account");

            migrationBuilder.DropTable(
                name: "personal_token",
                schema: "account");

            migrationBuilder.DropTable(
                name: "pile",
                schema: "derived");

            migrationBuilder.DropTable(
                name: "position_check",
                schema: "derived");

            migrationBuilder.DropTable(
                name: "site_record",
                schema: "record");

            migrationBuilder.DropTable(
                name: "site_role",
                schema: "derived");

            migrationBuilder.DropTable(
                name: "site_state",
                schema: "derived");

            migrationBuilder.DropTable(
                name: "upload",
                schema: "record");

            migrationBuilder.DropTable(
                name: "upload_chunk",
                schema: "record");

            migrationBuilder.DropTable(
                name: "account",
                schema: "account");

            migrationBuilder.DropTable(
                name: "site",
                schema: "record");
        }
    }
}
