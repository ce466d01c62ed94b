using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Treatment;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Treatment;

/// <summary>What findings are narrowed by, as it stands in an address: <c>pile</c> (may be repeated), <c>zone</c>, <c>check</c>, <c>barge</c>, <c>day</c>.</summary>
internal static class FindingParts
{
    /// <summary>The check an address names; null when it names none.</summary>
    public static CheckName? Check(string? word)
        => word is { Length: > 0 } && char.IsAsciiLetter(word[0]) && Enum.TryParse(word, ignoreCase: true, out CheckName check) ? check : null;

    /// <summary>The filter of a program's request.</summary>
    public static ReadFreeFindings.Filter Of(IQueryCollection asked) => new(
        [.. asked["pile"].OfType<string>()], One(asked, "zone"), Check(One(asked, "check")), One(asked, "barge"), ShowDay.LocalFromAddress(One(asked, "day")));

    /// <summary>A refusal that names the first word that means nothing here; null when all are understood.</summary>
    public static IResult? Refusal(IQueryCollection asked) => AskedParts.Refusal(
        ("check", One(asked, "check"), Check(One(asked, "check")) is not null, string.Join(", ", Enum.GetNames<CheckName>()).ToLowerInvariant()),
        AskedParts.Day("day", One(asked, "day")));

    private static string? One(IQueryCollection asked, string name) => asked[name] is [.., { Length: > 0 } last] ? last : null;
}
