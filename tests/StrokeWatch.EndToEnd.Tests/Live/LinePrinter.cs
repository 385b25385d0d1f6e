using System.Diagnostics;
using System.Globalization;
using System.Runtime.Versioning;
using System.Text;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Serial;

namespace StrokeWatch.EndToEnd.Tests.Live;

/// <summary>A microcontroller that prints <c>µs,x,y,z</c> in g at the pace of its samples; what finds no room is lost.</summary>
[SupportedOSPlatform("linux")]
internal sealed class LinePrinter : IDisposable
{
    private readonly ISampleSource tray;
    private readonly PseudoTerminal cable;
    private readonly Thread thread;
    private readonly ManualResetEventSlim stop = new(false);

    public LinePrinter(ISampleSource tray, PseudoTerminal cable)
    {
        (this.tray, this.cable) = (tray, cable);
        thread = new Thread(Run) { IsBackground = true };
        thread.Start();
    }

    public void Dispose()
    {
        stop.Set();
        thread.Join();
        stop.Dispose();
    }

    private void Run()
    {
        var rate = tray.Info.RateHz!.Value;
        var block = new SampleBlock(3, 16);
        var watch = Stopwatch.StartNew();
        for (long sent = 0; !stop.IsSet;)
        {
            while (!stop.IsSet && sent + block.Capacity <= watch.Elapsed.TotalSeconds * rate && tray.Read(block) == SourceState.Samples)
            {
                _ = cable.WriteAll(Encoding.ASCII.GetBytes(Lines(block, sent, rate)), 50);
                sent += block.Count;
            }

            stop.Wait(5);
        }
    }

    private static string Lines(SampleBlock block, long first, double rate)
    {
        var text = new StringBuilder();
        for (var i = 0; i < block.Count; i++)
        {
            text.Append(CultureInfo.InvariantCulture, $"{(first + i) * 1e6 / rate:0}");
            for (var axis = 0; axis < 3; axis++)
            {
                text.Append(CultureInfo.InvariantCulture, $",{block[axis][i] / Gravity.Standard:0.0000}");
            }

            if (block.HasSupply)
            {
                text.Append(CultureInfo.InvariantCulture, $",{block.Supply[i]:0.00}");
            }

            text.Append('\n');
        }

        return text.ToString();
    }
}
