using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;

namespace StrokeWatch.Page.Access;

/// <summary>A token by which a program acts for somebody; only its SHA-256 is kept, which is enough, for a token is 256 bits of chance and no word that could be tried.</summary>
/// <param name="User">For whom it acts.</param>
/// <param name="Hash">The SHA-256 of the token, in lower-case hexadecimal.</param>
/// <param name="Made">When it was made, in UTC.</param>
internal sealed record PageToken(string User, string Hash, DateTimeOffset Made)
{
    private const string Prefix = "swt_";
    private const int Bytes = 32;
    private const int Shown = 8;

    /// <summary>Gets the beginning of the hash, by which people name it.</summary>
    public string Id => Hash[..Shown];

    /// <summary>Makes a token: the words of it, which nobody sees again, and what is kept.</summary>
    public static (string Token, PageToken Kept) Make(string user, DateTimeOffset now)
    {
        var token = Prefix + Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(Bytes));
        return (token, new(user, HashOf(token), now));
    }

    /// <summary>Gives what is kept of a token or of a session's secret.</summary>
    public static string HashOf(string token) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(token)));

    /// <summary>Says whether something is such a hash.</summary>
    public static bool IsHash(string text) => text.Length == 2 * SHA256.HashSizeInBytes && text.All(char.IsAsciiHexDigitLower);
}
