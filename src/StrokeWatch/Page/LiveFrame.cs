using System.Text;

namespace StrokeWatch.Page;

/// <summary>One event for all who follow: written once, by the first that needs it, never by the measuring thread.</summary>
internal sealed class LiveFrame
{
    private readonly Lazy<byte[]> bytes;

    /// <summary>Makes an event.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="data">Gives its data, one line of JSON in UTF-8.</param>
    public LiveFrame(string name, Func<ReadOnlyMemory<byte>> data) =>
        bytes = new(() => [.. Encoding.ASCII.GetBytes($"event: {name}\ndata: "), .. data().Span, (byte)'\n', (byte)'\n']);

    /// <summary>Gets it as it goes over the wire.</summary>
    public ReadOnlyMemory<byte> Bytes => bytes.Value;
}
