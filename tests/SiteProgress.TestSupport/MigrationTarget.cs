namespace SiteProgress.TestSupport;

/// <summary>An empty database with PostGIS that waits for the product's schema.</summary>
/// <param name="OwnerConnectionString">Account that is to own the tables.</param>
/// <param name="WebConnectionString">Account of the web application, which the migration makes with the password in here.</param>
public sealed record MigrationTarget(string OwnerConnectionString, string WebConnectionString);
