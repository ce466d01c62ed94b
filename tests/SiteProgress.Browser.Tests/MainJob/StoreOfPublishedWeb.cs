using System.Security.Cryptography;
using SiteProgress.TestSupport;

namespace SiteProgress.Browser.Tests.MainJob;

/// <summary>A database whose schema the published application itself has made.</summary>
public sealed class StoreOfPublishedWeb() : TestDatabase(SchemaOfPublishedWeb(), PublishedWeb.MigrateAsync)
{
    private static string SchemaOfPublishedWeb()
        => "published " + Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(Path.Combine(PublishedWeb.Folder, "SiteProgress.Storage.dll"))));
}
