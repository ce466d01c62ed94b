namespace SiteProgress.Jobs.Senders;

/// <summary>How much senders may send, and the folders in which machines leave files. From the configuration, section <c>Senders</c>.</summary>
public sealed class SenderLimits
{
    /// <summary>Largest request, bytes.</summary>
    public int LargestRequestBytes { get; set; } = 4 << 20;

    /// <summary>Most rows of one request.</summary>
    public int MostRows { get; set; } = 5_000;

    /// <summary>Requests of one key in a minute.</summary>
    public int RequestsPerMinute { get; set; } = 120;

    /// <summary>Requests of one key at a time.</summary>
    public int RequestsAtOnce { get; set; } = 8;

    /// <summary>Wrong keys from one address in a minute.</summary>
    public int WrongKeysPerMinute { get; set; } = 20;

    /// <summary>Longest time a request may take to arrive, seconds.</summary>
    public int ArrivalSeconds { get; set; } = 600;

    /// <summary>How long a file must lie unchanged before it is taken from a watched folder, seconds.</summary>
    public int SettleSeconds { get; set; } = 10;

    /// <summary>Watched folders.</summary>
    public IReadOnlyList<WatchedFolder> Folders { get; set; } = [];
}

/// <summary>A folder in which one sender leaves files.</summary>
public sealed class WatchedFolder
{
    /// <summary>Code of the site.</summary>
    public string Site { get; set; } = "";

    /// <summary>Name of the sender; a key of it must work.</summary>
    public string Sender { get; set; } = "";

    /// <summary>The folder.</summary>
    public string Path { get; set; } = "";
}
