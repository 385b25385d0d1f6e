using System.Globalization;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Commands;

/// <summary>A CSV capture: <c>t_s,x_g,y_g,z_g</c>, or <c>t_s,front_x_g…</c> of several sensors, <c>supply_v</c> last where the supply's voltage is taken; nine significant digits.</summary>
internal sealed class CsvCaptureSink : ICaptureSink
{
    private readonly StreamWriter writer;
    private readonly bool supply;

    /// <summary>Makes the file and writes its header.</summary>
    public CsvCaptureSink(string path, IReadOnlyList<Axis> axes, IReadOnlyList<SensorPlace> places, DateTimeOffset? recorded, bool supply)
    {
        this.supply = supply;
        writer = new StreamWriter(path) { NewLine = "\n" };
        if (recorded is { } date)
        {
            writer.WriteLine($"# recorded: {RecordedDate.Text(date)}");
        }

        writer.WriteLine("t_s," + string.Join(',', ChannelNames.Of(axes, places).Select(name => name + "_g")) + (supply ? ",supply_v" : ""));
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

            if (supply)
            {
                writer.Write(',');
                Put(block.Supply[i], text);
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
