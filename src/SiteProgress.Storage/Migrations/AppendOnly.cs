using Microsoft.EntityFrameworkCore.Migrations;

namespace SiteProgress.Storage.Migrations;

/// <summary>
/// What keeps records as they came in, below every application: triggers that refuse change, removal and emptying even to
/// the owner. Grants say the same to the web; the triggers guard against a slip of the hand with the owner's rights.
/// </summary>
internal static class AppendOnly
{
    private static readonly string[] Tables = ["record.site", "record.site_record", "record.upload", "record.upload_chunk"];

    public static void Guard(MigrationBuilder migration)
    {
        migration.Sql(
            """
            create function record.refuse_change() returns trigger language plpgsql as $$
            begin
                raise exception 'Records are only ever added: % on %.% is refused.', tg_op, tg_table_schema, tg_table_name
                    using errcode = 'restrict_violation';
            end $$;
            """);
        foreach (string table in Tables) Guard(migration, table);
    }

    /// <summary>Guards a table that came later.</summary>
    public static void Guard(MigrationBuilder migration, string table) => migration.Sql(
        $"""
        create trigger only_added before update or delete on {table} for each row execute function record.refuse_change();
        create trigger never_emptied before truncate on {table} for each statement execute function record.refuse_change();
        """);
}
