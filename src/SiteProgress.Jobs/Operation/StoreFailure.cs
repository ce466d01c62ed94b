using System.Data.Common;

namespace SiteProgress.Jobs.Operation;

/// <summary>Tells a failure of the store from a mistake of the program.</summary>
public static class StoreFailure
{
    /// <summary>
    /// The store's own failure, also where the mapping library has put one of its own around it, as it does with those
    /// that may pass; null for any other exception.
    /// </summary>
    public static DbException? Of(Exception failure)
        => failure as DbException ?? failure.InnerException as DbException;
}
