using InfluxDB.Client.Api.Domain;
using InfluxDB.Client.Writes;
using StrokeWatch.Outputs.Forwarding;

namespace StrokeWatch.Outputs.Influx;

/// <summary>A table of the store as a measurement of the time-series server.</summary>
/// <param name="Name">The table's name.</param>
/// <param name="Tags">The columns that become tags; all others become fields of their own type.</param>
internal sealed record InfluxTable(string Name, params string[] Tags)
{
    private const string Prefix = "strokewatch_";

    /// <summary>What is forwarded, in this order: alarms do not wait behind a week of windows.</summary>
    public static readonly IReadOnlyList<InfluxTable> All =
    [
        new("alarm", "feeder", "kind"),
        new("alarm_journal", "feeder", "alarm"),
        new("event", "feeder", "kind"),
        new("finding", "feeder", "finding"),
        new("window", "feeder") { Beside = RowsBeside.Supply },
    ];

    /// <summary>Gets what is forwarded along with each row; null for nothing.</summary>
    public RowsBeside? Beside { get; init; }

    /// <summary>Gives a row as a line of line protocol, precision nanoseconds; the same row always gives the same line.</summary>
    /// <remarks>
    /// The instant is the row's millisecond and, as nanoseconds, the last six digits of its number: rows of one millisecond stay apart, and a row sent twice falls
    /// onto itself. Control characters become spaces, since not every server reads on past a line's end within quotes.
    /// </remarks>
    public string Line(WaitingRow row)
    {
        var point = PointData.Builder.Measurement(Prefix + Name).Timestamp(row.UtcMs * 1_000_000 + row.Id % 1_000_000, WritePrecision.Ns).Field("id", row.Id);
        foreach (var (column, value) in row.Values)
        {
            point = value switch
            {
                string text when Tags.Contains(column) => point.Tag(column, Clean(text).TrimEnd('\\', ' ')),
                string text => point.Field(column, Clean(text)),
                long whole => point.Field(column, whole),
                double real => point.Field(column, real),
                _ => point,
            };
        }

        return point.ToPointData().ToLineProtocol();
    }

    private static string Clean(string text) => text.Any(char.IsControl) ? new([.. text.Select(letter => char.IsControl(letter) ? ' ' : letter)]) : text;
}
