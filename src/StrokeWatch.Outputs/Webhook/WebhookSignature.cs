using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace StrokeWatch.Outputs.Webhook;

/// <summary>What shows that a message is ours and as it was sent: HMAC-SHA256 (RFC 2104, FIPS 180-4) of the time stamp, a dot and the body.</summary>
public static class WebhookSignature
{
    /// <summary>The header with the row's id: the same id is the same step, sent twice.</summary>
    public const string IdHeader = "StrokeWatch-Id";

    /// <summary>The header with the instant of sending, in whole seconds since 1970 UTC.</summary>
    public const string TimeHeader = "StrokeWatch-Time";

    /// <summary>The header with the signature.</summary>
    public const string Header = "StrokeWatch-Signature";

    /// <summary>Gives the signature as its header holds it: <c>sha256=</c> and 64 digits of hexadecimal in small letters.</summary>
    public static string Of(string secret, long unixSeconds, ReadOnlySpan<byte> body)
    {
        using var sum = IncrementalHash.CreateHMAC(HashAlgorithmName.SHA256, Encoding.UTF8.GetBytes(secret));
        sum.AppendData(Encoding.ASCII.GetBytes(unixSeconds.ToString(CultureInfo.InvariantCulture) + "."));
        sum.AppendData(body);
        return "sha256=" + Convert.ToHexStringLower(sum.GetHashAndReset());
    }
}
