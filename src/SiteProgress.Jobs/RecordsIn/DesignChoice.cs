using System.Globalization;
using NodaTime;
using NodaTime.Text;
using SiteProgress.Core.Records;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>What a person says of a pile schedule as a revision of the design. It belongs to the file, and is not taken up for another one.</summary>
/// <param name="Scope">What the schedule says of piles it does not name; null: they stay.</param>
/// <param name="FromBeginning">True where it holds as if it had always been so.</param>
/// <param name="From">Site time from which it holds; null: the moment it is recorded.</param>
/// <param name="Name">What the designer calls the revision.</param>
public sealed record DesignChoice(DesignScope? Scope = null, bool FromBeginning = false, LocalDateTime? From = null, string? Name = null)
{
    private const int LongestName = 60;

    private static readonly LocalDateTimePattern[] Patterns =
        [.. new[] { "uuuu-MM-dd'T'HH:mm", "uuuu-MM-dd'T'HH:mm:ss", "uuuu-MM-dd HH:mm" }.Select(LocalDateTimePattern.CreateWithInvariantCulture)];

    /// <summary>Nothing said.</summary>
    public static DesignChoice None { get; } = new();

    /// <summary>Words of scopes.</summary>
    public static IReadOnlyList<(DesignScope Value, string Word)> Scopes { get; } =
        [(DesignScope.Amends, "amends"), (DesignScope.Zones, "zones"), (DesignScope.Site, "site")];

    /// <summary>The choice as pairs.</summary>
    internal IEnumerable<(string Name, string? Value)> Pairs()
    {
        yield return ("scope", Scope is { } scope ? Scopes.First(one => one.Value == scope).Word : null);
        yield return ("inForce", FromBeginning ? "beginning" : null);
        yield return ("inForceFrom", From is { } from ? Patterns[0].Format(from) : null);
        yield return ("revision", Name);
    }

    /// <summary>True for the name of a pair of this choice.</summary>
    internal static bool IsPair(string name) => name is "scope" or "inForce" or "inForceFrom" or "revision";

    /// <summary>The choice of pairs; what cannot be read is not chosen.</summary>
    internal static DesignChoice Read(Func<string, string?> get)
    {
        DesignScope? scope = null;
        foreach ((DesignScope value, string word) in Scopes)
        {
            if (word == get("scope")) scope = value;
        }

        LocalDateTime? from = null;
        foreach (LocalDateTimePattern pattern in Patterns)
        {
            if (get("inForceFrom") is { } text && pattern.Parse(text) is { Success: true } read) from = read.Value;
        }

        string? name = get("revision");
        return new DesignChoice(scope, get("inForce") == "beginning", from, name?.Length > LongestName ? name[..LongestName] : name);
    }

    /// <summary>The site time in words.</summary>
    internal static string Words(Instant at, DateTimeZone zone) => Patterns[2].Format(at.InZone(zone).LocalDateTime).ToString(CultureInfo.InvariantCulture);
}
