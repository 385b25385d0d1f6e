using System.Globalization;
using System.Text.RegularExpressions;

namespace StrokeWatch.Samples.Captures;

/// <summary>The instant of a capture's first sample as text: ISO 8601, extended or basic; without an offset it is UTC, without a time midnight.</summary>
public static partial class RecordedDate
{
    private static readonly string[] Formats =
    [
        "yyyy-MM-dd'T'HH:mm:ss.FFFFFFFK", "yyyy-MM-dd'T'HH:mmK", "yyyy-MM-dd HH:mm:ss.FFFFFFFK", "yyyy-MM-dd HH:mmK", "yyyy-MM-dd",
        "yyyy-MM-dd'T'HHmmssK", "yyyy-MM-dd'T'HHmmK", "yyyy-MM-dd'T'HH-mm-ssK", "yyyy-MM-dd'T'HH-mmK",
        "yyyyMMdd'T'HHmmssK", "yyyyMMdd'T'HHmmK", "yyyyMMdd",
    ];

    /// <summary>Reads a date; null where the text is none.</summary>
    public static DateTimeOffset? Parse(string text) =>
        DateTimeOffset.TryParseExact(text.Trim(), Formats, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var date) ? date : null;

    /// <summary>Reads the first date in a file's name; null where there is none.</summary>
    public static DateTimeOffset? OfName(string path)
    {
        foreach (Match match in Stamp().Matches(Path.GetFileNameWithoutExtension(path)))
        {
            var time = match.Groups["time"].Value.Replace('_', 'T');
            time = time.Length > 0 && !time.StartsWith('T') ? "T" + time[1..] : time;
            if ((Parse(match.Groups["day"].Value + time) ?? Parse(match.Groups["day"].Value)) is { } date)
            {
                return date;
            }
        }

        return null;
    }

    /// <summary>Writes a date as UTC to the second, <c>2026-03-01T08:00:00Z</c>.</summary>
    public static string Text(DateTimeOffset date) => date.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);

    [GeneratedRegex(@"(?<!\d)(?<day>(?:19|20)\d{2}-\d{2}-\d{2}|(?:19|20)\d{6})(?<time>[T_ -]\d{2}[-:]?\d{2}(?:[-:]?\d{2})?(?:Z|[+-]\d{2}:?\d{2}(?!\d))?)?(?!\d)", RegexOptions.CultureInvariant)]
    private static partial Regex Stamp();
}
