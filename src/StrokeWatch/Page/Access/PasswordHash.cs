using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace StrokeWatch.Page.Access;

/// <summary>What is kept of a password: PBKDF2 with HMAC-SHA-256 (RFC 8018), a salt of its own, and how many iterations.</summary>
internal sealed class PasswordHash
{
    /// <summary>How many iterations a new password takes: OWASP, Password Storage Cheat Sheet, as of December 2022 (600,000 for PBKDF2-HMAC-SHA256).</summary>
    public const int UsualIterations = 600_000;

    /// <summary>The fewest characters of a password: NIST SP 800-63B, 5.1.1.2, from memory.</summary>
    public const int Fewest = 8;

    /// <summary>The most characters of a password; what is longer is no password but an attack on the processor.</summary>
    public const int Most = 200;

    private const int LeastIterations = 100_000, MostIterations = 10_000_000;
    private const int SaltBytes = 16, KeyBytes = 32;
    private const string Scheme = "pbkdf2-sha256";

    private readonly int iterations;
    private readonly byte[] salt;
    private readonly byte[] key;

    private PasswordHash(int iterations, byte[] salt, byte[] key) => (this.iterations, this.salt, this.key) = (iterations, salt, key);

    /// <summary>Gets one that no password fits: it takes as long as any other, so that an unknown name takes as long as a known one.</summary>
    public static PasswordHash Nobody { get; } = new(UsualIterations, RandomNumberGenerator.GetBytes(SaltBytes), RandomNumberGenerator.GetBytes(KeyBytes));

    /// <summary>Says what is wrong with a password that somebody chose; null where nothing is.</summary>
    public static string? Trouble(string password) =>
        password.Length is < Fewest or > Most || password.Any(char.IsControl) ? $"a password of {Fewest} to {Most} characters was expected" : null;

    /// <summary>Makes what is kept of a new password.</summary>
    public static PasswordHash Make(string password, int iterations = UsualIterations)
    {
        var salt = RandomNumberGenerator.GetBytes(SaltBytes);
        return new(iterations, salt, Derive(password, salt, iterations));
    }

    /// <summary>Reads it as it is written; null where it is not what this program writes.</summary>
    public static PasswordHash? Read(string text)
    {
        var parts = text.Split('$');
        var salt = new byte[SaltBytes];
        var key = new byte[KeyBytes];
        return parts.Length == 4 && parts[0] == Scheme
            && int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out var iterations) && iterations is >= LeastIterations and <= MostIterations
            && Convert.TryFromBase64String(parts[2], salt, out var salted) && salted == SaltBytes
            && Convert.TryFromBase64String(parts[3], key, out var derived) && derived == KeyBytes
            ? new(iterations, salt, key) : null;
    }

    /// <summary>Says whether a password is the one; it takes the same time whatever differs.</summary>
    public bool Fits(string password) => CryptographicOperations.FixedTimeEquals(Derive(password, salt, iterations), key);

    /// <summary>Writes it: scheme, iterations, salt and key.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Scheme}${iterations}${Convert.ToBase64String(salt)}${Convert.ToBase64String(key)}");

    private static byte[] Derive(string password, byte[] salt, int iterations) =>
        Rfc2898DeriveBytes.Pbkdf2(Encoding.UTF8.GetBytes(password), salt, iterations, HashAlgorithmName.SHA256, KeyBytes);
}
