using System.Buffers.Text;
using System.Security.Cryptography;

namespace StrokeWatch.Page.Access;

/// <summary>Who is signed in at a browser: held in memory alone, so many and no more, and ended by rest and by age. Any thread may ask.</summary>
/// <param name="time">The clock.</param>
/// <param name="rest">After how long without a request it ends.</param>
/// <param name="age">After how long it ends in any case.</param>
internal sealed class PageSessions(TimeProvider time, TimeSpan rest, TimeSpan age)
{
    /// <summary>How many there may be; the one that rested longest makes room.</summary>
    public const int Most = 100;

    private const int Bytes = 32;

    private readonly Lock gate = new();
    private readonly Dictionary<string, Session> sessions = new(StringComparer.Ordinal);

    /// <summary>Begins one; gives its secret, of which only the hash is held.</summary>
    public string Begin(string user)
    {
        var secret = Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(Bytes));
        lock (gate)
        {
            foreach (var over in sessions.Where(one => Over(one.Value)).Select(one => one.Key).ToList())
            {
                _ = sessions.Remove(over);
            }

            if (sessions.Count >= Most)
            {
                _ = sessions.Remove(sessions.MinBy(one => one.Value.Used).Key);
            }

            var now = time.GetTimestamp();
            sessions.Add(PageToken.HashOf(secret), new(user, now, now));
        }

        return secret;
    }

    /// <summary>Gives whose session a secret is; null where it is none, or has ended.</summary>
    /// <param name="secret">The secret.</param>
    /// <param name="acts">Whether somebody does something; a page that is only left open rests.</param>
    public string? Find(string secret, bool acts)
    {
        var key = PageToken.HashOf(secret);
        lock (gate)
        {
            if (!sessions.TryGetValue(key, out var session))
            {
                return null;
            }

            if (Over(session))
            {
                _ = sessions.Remove(key);
                return null;
            }

            if (acts)
            {
                sessions[key] = session with { Used = time.GetTimestamp() };
            }

            return session.User;
        }
    }

    /// <summary>Ends one.</summary>
    public void End(string secret)
    {
        lock (gate)
        {
            _ = sessions.Remove(PageToken.HashOf(secret));
        }
    }

    private bool Over(Session session) => time.GetElapsedTime(session.Used) >= rest || time.GetElapsedTime(session.Began) >= age;

    private readonly record struct Session(string User, long Began, long Used);
}
