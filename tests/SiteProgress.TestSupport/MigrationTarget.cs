namespace SiteProgress.TestSupport;

/// <summary>An empty database with PostGIS that waits for the product's schema.</summary>
/// <param name="OwnerConnectionString">Account that is to own the tables.</param>
/// <param name="WebConnectionString">Account of the web application, which the migration makes.</param>
/// <param name="WebPassword">Password the web's account is to have.</param>
public sealed record MigrationTarget(string OwnerConnectionString, string WebConnectionString, string WebPassword);
