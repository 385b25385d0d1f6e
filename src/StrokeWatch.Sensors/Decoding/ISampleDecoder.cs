namespace StrokeWatch.Sensors.Decoding;

/// <summary>A protocol: bytes become runs of samples. It never throws on what a sensor sends, and opens nothing.</summary>
internal interface ISampleDecoder
{
    /// <summary>The bytes that always fit once <see cref="Next"/> has answered <see cref="DecodeState.None"/>.</summary>
    const int FeedSize = 4096;

    /// <summary>Takes bytes in and says how many it took.</summary>
    int Feed(ReadOnlySpan<byte> bytes);

    /// <summary>Fills the run with the next samples of one frame, or of the lines at hand.</summary>
    DecodeState Next(SampleRun run);

    /// <summary>Says that the port is gone: what is held is all there will be, and the next bytes join in the middle.</summary>
    void Break();
}
