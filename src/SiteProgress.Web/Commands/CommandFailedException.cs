namespace SiteProgress.Web.Commands;

/// <summary>Something that can be expected to go wrong. The message is the one sentence the operator reads.</summary>
/// <param name="sentence">What went wrong and what to do.</param>
/// <param name="exitStatus">Exit status of the process.</param>
public sealed class CommandFailedException(string sentence, int exitStatus = 1) : Exception(sentence)
{
    /// <summary>Exit status of the process.</summary>
    public int ExitStatus { get; } = exitStatus;
}
