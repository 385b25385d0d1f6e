namespace StrokeWatch.Assessment.Alarms;

/// <summary>What the alarms of a span of time asked of people, after IEC 62682 and EEMUA 191; times in UTC.</summary>
public sealed record AlarmLoad
{
    /// <summary>Gets the beginning of the span.</summary>
    public required DateTimeOffset From { get; init; }

    /// <summary>Gets its end.</summary>
    public required DateTimeOffset To { get; init; }

    /// <summary>Gets how often an alarm was announced.</summary>
    public required int Announced { get; init; }

    /// <summary>Gets the same a day, 0 or more; about 150 are said to be acceptable for one person (EEMUA 191).</summary>
    public double PerDay => To > From ? Announced / (To - From).TotalDays : 0;

    /// <summary>Gets the alarms that chattered, each with its index in 1/s.</summary>
    public required IReadOnlyList<(AlarmId Id, double IndexPerSecond)> Chattering { get; init; }

    /// <summary>Gets how often an alarm was over within ten seconds and did not come again within a minute.</summary>
    public required int Fleeting { get; init; }

    /// <summary>Gets the alarms that stood for more than a day, each with its longest time.</summary>
    public required IReadOnlyList<(AlarmId Id, TimeSpan Stood)> Stale { get; init; }

    /// <summary>Gets the floods: more than ten announced in ten minutes, until fewer than five are.</summary>
    public required IReadOnlyList<(DateTimeOffset From, DateTimeOffset To)> Floods { get; init; }

    /// <summary>Gets the share of the time in flood, 0 to 1; below 0.01 is the target.</summary>
    public double FloodShare => To > From ? Floods.Sum(flood => (flood.To - flood.From).TotalSeconds) / (To - From).TotalSeconds : 0;

    /// <summary>Gets how often each priority was announced; about 80, 15 and 5 % of low, medium and high are the target.</summary>
    public required IReadOnlyDictionary<AlarmPriority, int> Priorities { get; init; }

    /// <summary>Gets the alarms by how often they were announced, most often first.</summary>
    public required IReadOnlyList<(AlarmId Id, int Times)> MostFrequent { get; init; }
}
