using StrokeWatch.Assessment.Alarms;

namespace StrokeWatch.Pipeline.Alarms;

/// <summary>Counts shelved alarms' time by a clock that nobody sets, so that a clock set back leaves no alarm shelved for longer than a person asked.</summary>
internal sealed class ShelfTimes(TimeProvider time)
{
    private readonly Dictionary<AlarmId, (DateTimeOffset Until, long From, TimeSpan Length)> shelves = [];

    /// <summary>Says whether the time of a shelf has been lived; one that is seen for the first time begins to count now.</summary>
    /// <param name="id">The alarm.</param>
    /// <param name="until">When its shelf ends, in UTC; null where it is not shelved.</param>
    public bool Lived(AlarmId id, DateTimeOffset? until)
    {
        if (until is not { } end)
        {
            shelves.Remove(id);
            return false;
        }

        if (!shelves.TryGetValue(id, out var shelf) || shelf.Until != end)
        {
            shelves[id] = shelf = (end, time.GetTimestamp(), end - time.GetUtcNow());
        }

        return time.GetElapsedTime(shelf.From) >= shelf.Length;
    }
}
