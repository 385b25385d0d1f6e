using System.Globalization;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Commands;

/// <summary>A CSV capture: <c>t_s,x_g,y_g,z_g</c>, nine significant digits.</summary>
internal sealed class CsvCaptureSink : ICaptureSink
{
    private readonly StreamWriter writer;

    /// <summary>Makes the file and writes its header.</summary>
    public CsvCaptureSink(string path)
    {
        writer = new StreamWriter(path) { NewLine = "\n" };
        writer.WriteLine("t_s,x_g,y_g,z_g");
    }

    /// <inheritdoc/>
    public void Write(SampleBlock block, ReadOnlySpan<double> times)
    {
        Span<char> text = stackalloc char[128];
        for (var i = 0; i < block.Count; i++)
        {
            text.TryWrite(
                CultureInfo.InvariantCulture,
                $"{times[i]:G9},{block[0][i] / Gravity.Standard:G9},{block[1][i] / Gravity.Standard:G9},{block[2][i] / Gravity.Standard:G9}",
                out var length);
            writer.WriteLine(text[..length]);
        }
    }

    /// <inheritdoc/>
    public void Dispose() => writer.Dispose();
}
