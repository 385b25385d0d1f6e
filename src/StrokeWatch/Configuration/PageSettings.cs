using System.Net;

namespace StrokeWatch.Configuration;

/// <summary>Where the page is served.</summary>
/// <param name="Listen">The address and port; port 0 takes any that is free.</param>
/// <param name="Names">Names beside <c>localhost</c> and plain addresses under which browsers may ask for it.</param>
/// <param name="Needed">Whether it is an alarm where the page cannot be served.</param>
internal sealed record PageSettings(IPEndPoint Listen, IReadOnlyList<string> Names, bool Needed)
{
    /// <summary>The address where nothing else is said: only this machine can ask.</summary>
    public static readonly IPEndPoint Usual = new(IPAddress.Loopback, 8787);

    /// <summary>Reads an address with its port, IPv6 in brackets; null where it is none.</summary>
    public static IPEndPoint? Address(string text) =>
        text.LastIndexOf(':') > text.LastIndexOf(']') && (text.Contains(']') || text.Count(c => c == ':') == 1) && IPEndPoint.TryParse(text.Replace("localhost:", "127.0.0.1:", StringComparison.Ordinal), out var read) ? read : null;
}
