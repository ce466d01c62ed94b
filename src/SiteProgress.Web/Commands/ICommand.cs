namespace SiteProgress.Web.Commands;

/// <summary>One thing the executable does when its name is given on the command line.</summary>
public interface ICommand
{
    /// <summary>The word that calls it.</summary>
    string Name { get; }

    /// <summary>What follows the word, such as <c>NAME EMAIL</c>; empty when nothing does.</summary>
    string Arguments { get; }

    /// <summary>What it does, in one line.</summary>
    string Summary { get; }

    /// <summary>Does it.</summary>
    /// <param name="call">What was asked, and the ways to the store and to the operator.</param>
    /// <returns>Exit status.</returns>
    /// <exception cref="CommandFailedException">It could not be done; the message is for the operator.</exception>
    Task<int> RunAsync(CommandCall call);
}
