namespace StrokeWatch.Benchmarks.Fuzzing;

/// <summary>Something that takes bytes from outside and must neither fail, hang nor grow, whatever they are.</summary>
internal interface IFuzzTarget : IDisposable
{
    /// <summary>Gets good inputs to start from.</summary>
    IReadOnlyList<byte[]> Corpus { get; }

    /// <summary>Gets pieces that mean something in such inputs.</summary>
    IReadOnlyList<string> Words { get; }

    /// <summary>Gets the longest input that is made, in bytes.</summary>
    int Longest { get; }

    /// <summary>Takes an input; gives whether it was taken for good. An exception is a fault.</summary>
    /// <param name="input">The bytes.</param>
    /// <param name="random">Draws options where the target has any; its seed is the input's.</param>
    bool Take(byte[] input, Random random);
}
