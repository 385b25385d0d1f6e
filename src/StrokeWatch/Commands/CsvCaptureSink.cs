using System.Globalization;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Commands;

/// <summary>A CSV capture: <c>t_s,x_g,y_g,z_g</c>, or <c>t_s,front_x_g…</c> of several sensors; nine significant digits.</summary>
internal sealed class CsvCaptureSink : ICaptureSink
{
    private readonly StreamWriter writer;

    /// <summary>Makes the file and writes its header.</summary>
    public CsvCaptureSink(string path, IReadOnlyList<Axis> axes, IReadOnlyList<SensorPlace> places, DateTimeOffset? recorded)
    {
        writer = new StreamWriter(path) { NewLine = "\n" };
        if (recorded is { } date)
        {
            writer.WriteLine($"# recorded: {RecordedDate.Text(date)}");
        }

        writer.WriteLine("t_s," + string.Join(',', ChannelNames.Of(axes, places).Select(name => name + "_g")));
    }

    /// <inheritdoc/>
    public void Write(SampleBlock block, ReadOnlySpan<double> times)
    {
        Span<char> text = stackalloc char[32];
        for (var i = 0; i < block.Count; i++)
        {
            Put(times[i], text);
            for (var channel = 0; channel < block.Channels; channel++)
            {
                writer.Write(',');
                Put(block[channel][i] / Gravity.Standard, text);
            }

            writer.WriteLine();
        }
    }

    /// <inheritdoc/>
    public void Dispose() => writer.Dispose();

    private void Put(double value, Span<char> text)
    {
        value.TryFormat(text, out var length, "G9", CultureInfo.InvariantCulture);
        writer.Write(text[..length]);
    }
}
