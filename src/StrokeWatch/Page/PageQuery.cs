using System.Globalization;
using Microsoft.AspNetCore.Http;

namespace StrokeWatch.Page;

/// <summary>Reads what is asked for in a query; all that is wrong is said in one sentence.</summary>
internal sealed class PageQuery
{
    private const string Instant = "an instant such as 2026-03-04T08:00:00Z was expected";

    private readonly IQueryCollection query;

    private PageQuery(IQueryCollection query) => this.query = query;

    /// <summary>Gets what is wrong, in a sentence; null where nothing is.</summary>
    public string? Trouble { get; private set; }

    /// <summary>Takes a query; a key that is not among those known is wrong.</summary>
    public static PageQuery Of(HttpContext context, params string[] known)
    {
        var query = new PageQuery(context.Request.Query);
        foreach (var key in query.query.Keys.Where(key => !known.Contains(key)))
        {
            query.Refuse(known.Length == 0 ? $"`{Shown(key)}` is not known here; this takes no question" : $"`{Shown(key)}` is not known here; {string.Join(", ", known)} are");
        }

        return query;
    }

    /// <summary>Writes an instant as queries and answers do: UTC, to the millisecond.</summary>
    public static string Written(DateTimeOffset at) => at.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture);

    /// <summary>Gives a span; where it is not said, it ends now and is so long.</summary>
    public (DateTimeOffset From, DateTimeOffset To) Span(DateTimeOffset now, TimeSpan usual)
    {
        var to = At("to") ?? now;
        var from = At("from") ?? Earlier(to, usual);
        if (from >= to)
        {
            Refuse("`from` is not before `to`");
        }

        return (from, to);
    }

    /// <summary>Gives a whole number within a range.</summary>
    public int Whole(string key, int least, int most, int usual)
    {
        if (Text(key) is not { } text)
        {
            return usual;
        }

        if (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var value) && value >= least && value <= most)
        {
            return value;
        }

        Refuse(string.Create(CultureInfo.InvariantCulture, $"`{key}` is {Shown(text)}; a whole number from {least} to {most} was expected"));
        return usual;
    }

    /// <summary>Gives a word that must be there, as it is.</summary>
    public string Word(string key)
    {
        if (Text(key) is { Length: > 0 } text)
        {
            return text;
        }

        Refuse($"`{key}` is missing");
        return "";
    }

    /// <summary>Gives one of some words; null where none is asked for.</summary>
    public string? OneOf(string key, IReadOnlyList<string> words)
    {
        if (Text(key) is not { } text || words.Contains(text))
        {
            return Text(key);
        }

        Refuse($"`{key}` is {Shown(text)}; {(words.Count == 0 ? "there is only one here, leave it out" : $"one of {string.Join(", ", words)} was expected")}");
        return null;
    }

    private static DateTimeOffset Earlier(DateTimeOffset at, TimeSpan span) => at - DateTimeOffset.UnixEpoch > span ? at - span : DateTimeOffset.UnixEpoch;

    private static string Shown(string text) => new([.. text.Take(40).Where(c => !char.IsControl(c))]);

    private DateTimeOffset? At(string key)
    {
        if (Text(key) is not { } text)
        {
            return null;
        }

        if (DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal, out var at) && at >= DateTimeOffset.UnixEpoch)
        {
            return at;
        }

        Refuse($"`{key}` is {Shown(text)}; {Instant}");
        return null;
    }

    private string? Text(string key) => query.TryGetValue(key, out var values) ? values.ToString() : null;

    private void Refuse(string sentence) => Trouble ??= sentence;
}
