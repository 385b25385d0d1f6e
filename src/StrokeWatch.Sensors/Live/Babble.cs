namespace StrokeWatch.Sensors.Live;

/// <summary>The judge of bytes that come without a sample among them: two seconds and two kilobytes of them are said to be no frames or lines, once an opening.</summary>
/// <remarks>Less may be a board that greets its listener while it starts: common practice, no source.</remarks>
internal sealed class Babble(TimeProvider time)
{
    private const double PatienceSeconds = 2;
    private const int Telling = 2048;
    private long since;
    private long bytes;
    private bool told;

    /// <summary>Begins with a port that was just opened.</summary>
    public void Begin()
    {
        since = time.GetTimestamp();
        bytes = 0;
        told = false;
    }

    /// <summary>Notes bytes of which no sample has come yet; true where that is to be told now.</summary>
    public bool Heard(int count)
    {
        bytes += count;
        if (told || bytes < Telling || time.GetElapsedTime(since).TotalSeconds < PatienceSeconds)
        {
            return false;
        }

        told = true;
        return true;
    }
}
