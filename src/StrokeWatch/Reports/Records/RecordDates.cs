using System.Globalization;

namespace StrokeWatch.Reports.Records;

/// <summary>Dates as a record writes them: UTC, the same under every culture and on every machine.</summary>
internal static class RecordDates
{
    /// <summary>Writes a day: <c>26 November 2026</c>.</summary>
    public static string Day(DateTimeOffset date) => date.UtcDateTime.ToString("d MMMM yyyy", CultureInfo.InvariantCulture);

    /// <summary>Writes a day for tables: <c>2026-11-26</c>.</summary>
    public static string Short(DateTimeOffset date) => date.UtcDateTime.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>Writes an instant to the minute: <c>2026-11-26 17:40</c>; it is UTC, which is said once in the record.</summary>
    public static string Minute(DateTimeOffset date) => date.UtcDateTime.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
}
