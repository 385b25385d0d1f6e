using System.Net;
using System.Net.Sockets;

namespace StrokeWatch.Page.Access;

/// <summary>Slows down who guesses passwords: by address and by name, twice as long after each failure. Holds so many of each and no more. Any thread may ask.</summary>
/// <remarks>An attempt counts as failed until it is known to have succeeded, so that many at once are no way around. A name is held up for a minute at most: nobody may keep another person out.</remarks>
internal sealed class SignInBrake(TimeProvider time)
{
    /// <summary>How many failures cost nothing: people mistype.</summary>
    public const int Free = 5;

    /// <summary>How many addresses and how many names are remembered.</summary>
    public const int Most = 512;

    private static readonly TimeSpan First = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan LongestOfAddress = TimeSpan.FromMinutes(15);
    private static readonly TimeSpan LongestOfName = TimeSpan.FromMinutes(1);
    private static readonly TimeSpan Forgotten = TimeSpan.FromMinutes(30);

    private readonly Lock gate = new();
    private readonly Dictionary<string, Entry> addresses = new(StringComparer.Ordinal);
    private readonly Dictionary<string, Entry> names = new(StringComparer.OrdinalIgnoreCase);

    /// <summary>Gets how many addresses and names are remembered.</summary>
    public int Count
    {
        get
        {
            lock (gate)
            {
                return addresses.Count + names.Count;
            }
        }
    }

    /// <summary>Begins an attempt, counted as failed; gives how long to wait first where it may not begin, and nothing is counted then.</summary>
    public TimeSpan? Begin(IPAddress address, string name)
    {
        lock (gate)
        {
            var from = Key(address);
            var wait = Later(Wait(addresses, from, LongestOfAddress), Wait(names, name, LongestOfName));
            if (wait > TimeSpan.Zero)
            {
                return wait;
            }

            Fail(addresses, from);
            Fail(names, name);
            return null;
        }
    }

    /// <summary>Says that the attempt succeeded.</summary>
    public void Succeeded(IPAddress address, string name)
    {
        lock (gate)
        {
            // Who may sign in himself gets no free guesses at others by it.
            if (addresses.TryGetValue(Key(address), out var entry))
            {
                addresses[Key(address)] = entry with { Failures = entry.Failures - 1 };
            }

            _ = names.Remove(name);
        }
    }

    /// <summary>Gives what counts as one address: of IPv6 the network, of which anybody has as many as he likes.</summary>
    private static string Key(IPAddress address) => address switch
    {
        { IsIPv4MappedToIPv6: true } => address.MapToIPv4().ToString(),
        { AddressFamily: AddressFamily.InterNetworkV6 } => Convert.ToHexString(address.GetAddressBytes().AsSpan(0, 8)),
        _ => address.ToString(),
    };

    private static TimeSpan Later(TimeSpan one, TimeSpan other) => one > other ? one : other;

    private TimeSpan Wait(Dictionary<string, Entry> table, string key, TimeSpan longest)
    {
        if (!table.TryGetValue(key, out var entry) || entry.Failures <= Free)
        {
            return TimeSpan.Zero;
        }

        var held = First * Math.Pow(2, Math.Min(entry.Failures - Free - 1, 20));
        return (held < longest ? held : longest) - time.GetElapsedTime(entry.Last);
    }

    private void Fail(Dictionary<string, Entry> table, string key)
    {
        var before = table.TryGetValue(key, out var entry) && time.GetElapsedTime(entry.Last) < Forgotten ? entry.Failures : 0;
        if (!table.ContainsKey(key) && table.Count >= Most)
        {
            _ = table.Remove(table.MinBy(one => (one.Value.Failures > Free, one.Value.Last)).Key);
        }

        table[key] = new(before + 1, time.GetTimestamp());
    }

    private readonly record struct Entry(int Failures, long Last);
}
