using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Sensors.Decoding;

/// <summary>
/// A run of samples as one frame or a few lines gave them, in m/s², up to three channels of up to eight sensors; made once and filled again and again.
/// </summary>
internal sealed class SampleRun
{
    /// <summary>The most samples in a run: the largest frame with one axis of two bytes.</summary>
    public const int Capacity = 512;

    /// <summary>The most channels in a run.</summary>
    public const int MaxChannels = 3 * MostSensors;

    /// <summary>The most sensors of one device.</summary>
    public const int MostSensors = 8;

    /// <summary>The part of full scale from which a sample counts as clipped: common practice, no source.</summary>
    public const double ClippedFrom = 0.98;

    private readonly double[][] values = [.. Enumerable.Range(0, MaxChannels).Select(_ => new double[Capacity])];
    private readonly SampleMarks[] marks = new SampleMarks[Capacity];
    private readonly double[] supply = new double[Capacity];

    /// <summary>Gets or sets the number of samples held.</summary>
    public int Count { get; set; }

    /// <summary>Gets or sets whether samples are lost before this run.</summary>
    public bool GapBefore { get; set; }

    /// <summary>Gets or sets how many samples are lost before this run; null where nobody knows.</summary>
    public long? MissingBefore { get; set; }

    /// <summary>Gets or sets whether the sensor started anew before this run.</summary>
    public bool Restarted { get; set; }

    /// <summary>Gets or sets the rate in Hz that the sensor's or the host's clock gave over a long span; null until then.</summary>
    public double? MeasuredRateHz { get; set; }

    /// <summary>Gets or sets what the sensor says of itself; the same instance while it says the same.</summary>
    public SensorAnnouncement? Sensor { get; set; }

    /// <summary>Gets or sets whether the supply's voltage came with the samples.</summary>
    public bool HasSupply { get; set; }

    /// <summary>Gives the storage of the supply's voltage, in its channel's unit; NaN where a sample has none.</summary>
    public Span<double> Supply => supply;

    /// <summary>Gives the storage of a channel.</summary>
    public Span<double> this[int channel] => values[channel];

    /// <summary>Gives the storage of the marks.</summary>
    public Span<SampleMarks> Marks => marks;

    /// <summary>Gives the mark of a sample at which one of so many sensors stands at its rail; of a single one the mark that tells nobody apart.</summary>
    public static SampleMarks ClippedMark(int sensor, int sensors) =>
        sensors == 1 ? SampleMarks.Clipped : (SampleMarks)((int)SampleMarks.FirstSensorClipped << sensor);

    /// <summary>Empties the run.</summary>
    public void Clear()
    {
        Count = 0;
        GapBefore = false;
        MissingBefore = 0;
        Restarted = false;
        HasSupply = false;
        MeasuredRateHz = null;
        Sensor = null;
    }
}
