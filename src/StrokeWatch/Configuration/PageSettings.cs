using System.Net;

namespace StrokeWatch.Configuration;

/// <summary>Where the page is served.</summary>
/// <param name="Listen">The address and port; port 0 takes any that is free.</param>
/// <param name="Names">Names beside <c>localhost</c> and plain addresses under which browsers may ask for it.</param>
/// <param name="Needed">Whether it is an alarm where the page cannot be served.</param>
internal sealed record PageSettings(IPEndPoint Listen, IReadOnlyList<string> Names, bool Needed)
{
    /// <summary>Gets the file of those who may sign in; null where nobody may.</summary>
    public string? Users { get; init; }

    /// <summary>Gets the certificate; null where nothing is encrypted.</summary>
    public PageCertificate? Certificate { get; init; }

    /// <summary>Gets for how long operators may put an alarm aside.</summary>
    public TimeSpan OperatorShelf { get; init; } = TimeSpan.FromHours(1);

    /// <summary>Gets after how long without doing anything somebody is signed out.</summary>
    public TimeSpan Rest { get; init; } = TimeSpan.FromMinutes(30);

    /// <summary>Gets after how long somebody is signed out in any case: a shift.</summary>
    public TimeSpan Age { get; init; } = TimeSpan.FromHours(12);

    /// <summary>Gets whether others than this machine are served without encryption.</summary>
    public bool Unencrypted => Certificate is null && !IPAddress.IsLoopback(Listen.Address);

    /// <summary>The address where nothing else is said: only this machine can ask.</summary>
    public static readonly IPEndPoint Usual = new(IPAddress.Loopback, 8787);

    /// <summary>Reads an address with its port, IPv6 in brackets; null where it is none.</summary>
    public static IPEndPoint? Address(string text) =>
        text.LastIndexOf(':') > text.LastIndexOf(']') && (text.Contains(']') || text.Count(c => c == ':') == 1) && IPEndPoint.TryParse(text.Replace("localhost:", "127.0.0.1:", StringComparison.Ordinal), out var read) ? read : null;
}
