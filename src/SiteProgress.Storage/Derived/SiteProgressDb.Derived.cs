using Microsoft.EntityFrameworkCore;

#pragma warning disable IDE0130 // one context, modelled in a file beside each concept
namespace SiteProgress.Storage;
#pragma warning restore IDE0130

public sealed partial class SiteProgressDb
{
    static partial void ModelDerived(ModelBuilder builder)
    {
    }
}
