using System.Buffers.Text;
using System.Security.Cryptography;

namespace SiteProgress.Jobs.Accounts;

/// <summary>
/// A secret of 32 random bytes that is shown once. The store keeps its SHA-256 hash: with so many random bytes a slow hash
/// would add nothing.
/// </summary>
internal static class Secret
{
    private const int Bytes = 32;

    /// <summary>A new secret as text for an address or a header, and what the store keeps of it.</summary>
    public static (string Text, byte[] Hash) Make()
    {
        byte[] secret = RandomNumberGenerator.GetBytes(Bytes);
        return (Base64Url.EncodeToString(secret), SHA256.HashData(secret));
    }

    /// <summary>The hash of a secret that came back as text; null when the text cannot be one.</summary>
    public static byte[]? HashOf(string? text)
    {
        if (text is null || text.Length > 64 || !Base64Url.IsValid(text, out int length) || length != Bytes) return null;
        return SHA256.HashData(Base64Url.DecodeFromChars(text));
    }
}
