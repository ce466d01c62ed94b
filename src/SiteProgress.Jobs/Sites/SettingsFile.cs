using System.Collections;
using System.Reflection;
using System.Text.Json;
using System.Text.RegularExpressions;
using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Jobs.Sites;

/// <summary>Reads the settings file an operator wrote, and says of what cannot be read where it stands, what was found and what was expected.</summary>
public static partial class SettingsFile
{
    /// <summary>Reads settings.</summary>
    /// <param name="json">Text of the file.</param>
    /// <returns>The settings, or the sentence that refuses them.</returns>
    public static (SiteSettings? Settings, string? Refusal) Read(string json)
    {
        try
        {
            return JsonSerializer.Deserialize<SiteSettings>(json, RecordJson.Options) is { } settings
                ? (settings, null)
                : (null, "The settings file holds nothing; expected the settings of a site between { and }.");
        }
        catch (JsonException exception)
        {
            return (null, Sentence(json, exception));
        }
    }

    private static string Sentence(string json, JsonException exception)
    {
        string place = exception.LineNumber is { } line ? $"line {line + 1}" : "";
        if (Parsed(json) is not { } whole) return $"The settings file is not JSON from {place} on: a comma, a quotation mark or a bracket is missing or too many there.";
        using (whole)
        {
            string path = exception.Path is { Length: > 2 } deep ? deep[2..] : "";
            return $"Settings file, {(path.Length > 0 ? path : "the whole")} ({place}): found {Found(whole.RootElement, path)}; expected {Expected(path)}.";
        }
    }

    private static JsonDocument? Parsed(string json)
    {
        try
        {
            return JsonDocument.Parse(json);
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private static IEnumerable<string> Steps(string path) => Step().Matches(path).Select(step => step.Value);

    private static string Found(JsonElement at, string path)
    {
        foreach (string step in Steps(path))
        {
            if (at.ValueKind is JsonValueKind.Array && int.TryParse(step, out int place) && place < at.GetArrayLength()) at = at[place];
            else if (at.ValueKind is JsonValueKind.Object && at.TryGetProperty(step, out JsonElement member)) at = member;
            else return "nothing";
        }

        string text = at.GetRawText();
        return text.Length <= 60 ? text : text[..60] + "\u2026";
    }

    /// <summary>What the type of that place can hold; a member that does not exist is answered by those that do.</summary>
    private static string Expected(string path)
    {
        Type type = typeof(SiteSettings);
        foreach (string step in Steps(path))
        {
            if (Element(type) is { } element && int.TryParse(step, out _))
            {
                type = element;
                continue;
            }

            PropertyInfo[] members = [.. type.GetProperties(BindingFlags.Public | BindingFlags.Instance).Where(one => one.CanWrite)];
            if (members.FirstOrDefault(one => JsonNamingPolicy.CamelCase.ConvertName(one.Name) == step) is not { } member)
                return $"one of the members {string.Join(", ", members.Select(one => JsonNamingPolicy.CamelCase.ConvertName(one.Name)))}";
            type = Nullable.GetUnderlyingType(member.PropertyType) ?? member.PropertyType;
        }

        return Words(type);
    }

    private static Type? Element(Type type)
        => type != typeof(string) && typeof(IEnumerable).IsAssignableFrom(type) ? type.GetGenericArguments().SingleOrDefault() ?? type.GetElementType() : null;

    private static string Words(Type type) => type switch
    {
        { IsEnum: true } => "one of " + string.Join(", ", Enum.GetNames(type).Select(JsonNamingPolicy.CamelCase.ConvertName)),
        _ when type == typeof(double) || type == typeof(decimal) => "a number with a decimal point and without quotation marks",
        _ when type == typeof(int) || type == typeof(long) => "a whole number without quotation marks",
        _ when type == typeof(bool) => "true or false",
        _ when type == typeof(string) => "text between quotation marks",
        _ when type == typeof(LocalDate) => "a date, year-month-day, such as \"2026-03-02\"",
        _ when type == typeof(LocalTime) => "a time of day from \"00:00\" to \"23:59\"",
        _ when Element(type) is not null => "a list between [ and ]",
        _ => "members between { and }",
    };

    [GeneratedRegex(@"[^.\[\]']+")]
    private static partial Regex Step();
}
