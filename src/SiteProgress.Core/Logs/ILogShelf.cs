namespace SiteProgress.Core.Logs;

/// <summary>
/// Where the samples of recorded logs lie, each under the hash of its content. What is found under a hash can only be one
/// thing, so whatever follows from it still follows from the records alone.
/// </summary>
public interface ILogShelf
{
    /// <summary>The log under a hash; null where it is not there.</summary>
    /// <param name="sha256">SHA-256 of its canonical bytes, lower-case hexadecimal.</param>
    PileLog? Find(string sha256);
}
