using System.Globalization;
using SiteProgress.Jobs.RecordsIn;

namespace SiteProgress.Web.RecordsIn;

/// <summary>Addresses of the pages of records in.</summary>
internal static class Addresses
{
    public static string List(string site) => $"/sites/{Uri.EscapeDataString(site)}/records-in";

    public static string Upload(string site, Guid upload) => $"{List(site)}/{upload:D}";

    public static string Upload(string site, Guid upload, UploadChoices choices) => Upload(site, upload) + Choices.Query(choices);

    public static string Batch(string site, long batch) => string.Create(CultureInfo.InvariantCulture, $"{List(site)}/{batch}");
}
