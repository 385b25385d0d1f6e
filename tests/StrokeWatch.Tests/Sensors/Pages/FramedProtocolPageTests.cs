using System.Buffers.Binary;
using System.Globalization;
using System.Text;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Decoding;
using StrokeWatch.Sensors.Frames;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Pages;

/// <summary>The examples on the page of the protocol; their bytes were made by another program (Python's struct and binascii.crc_hqx).</summary>
public sealed class FramedProtocolPageTests
{
    private const string Page = "framed-protocol.md";

    public static TheoryData<int> Examples => [.. Enumerable.Range(0, 9)];

    [Theory]
    [MemberData(nameof(Examples))]
    public void Each_example_decodes_to_what_the_page_says(int example)
    {
        var (bytes, text) = Example(example);
        Assert.Equal(text, Describe(bytes));
    }

    [Theory]
    [MemberData(nameof(Examples))]
    public void What_the_page_says_encodes_to_the_examples_bytes(int example)
    {
        var (bytes, text) = Example(example);
        Assert.Equal(Convert.ToHexString(bytes), Convert.ToHexString(Encode(text)));
    }

    [Fact]
    public void The_page_has_no_other_examples_than_those_checked() =>
        Assert.Equal(9, NotesPage.Blocks(Page).Count(block => block.Kind == "hex"));

    [Fact]
    public void The_stream_is_heard_as_the_page_says()
    {
        var blocks = NotesPage.Blocks(Page);
        var at = blocks.FindIndex(block => block.Kind == "stream");
        var counters = new SourceCounters();
        var decoder = new FrameDecoder(counters);
        var run = new SampleRun();
        _ = decoder.Feed(NotesPage.Hex(blocks[at].Lines));
        var heard = new List<string>();
        while (decoder.Next(run) != DecodeState.None)
        {
            heard.Add($"samples {run.Count}{(run.GapBefore ? $" after a gap of {run.MissingBefore}" : string.Empty)}");
        }

        heard.Add("rejected: " + string.Join(", ", counters.Rejected.Select(r => $"{r.Key} {r.Value}")));
        heard.Add($"skipped: {counters.SkippedBytes} bytes");
        Assert.Equal(blocks[at + 1].Lines, heard);
    }

    [Fact]
    public void The_page_names_every_reason_that_frames_are_turned_down_for()
    {
        var page = NotesPage.Read(Page);
        foreach (var reason in Enum.GetValues<RejectReason>().Except([RejectReason.Columns, RejectReason.Number]))
        {
            Assert.Contains($"| `{RejectReasons.Name(reason)}` |", page, StringComparison.Ordinal);
        }
    }

    private static (byte[] Bytes, string[] Text) Example(int example)
    {
        var blocks = NotesPage.Blocks(Page);
        var hex = blocks.Select((block, i) => (block, i)).Where(b => b.block.Kind == "hex").ElementAt(example).i;
        return (NotesPage.Hex(blocks[hex].Lines), blocks[hex + 1].Lines);
    }

    private static string[] Describe(byte[] bytes)
    {
        var decoder = new FrameDecoder(new());
        var run = new SampleRun();
        _ = decoder.Feed(bytes);
        Assert.NotEqual(DecodeState.None, decoder.Next(run));
        var head = FrameHead.Read(bytes);
        List<string> lines =
        [
            $"kind: {head.Kind}",
            $"flags: {head.Flags}",
            $"length: {head.Length}",
            $"sequence: {head.Sequence}",
            $"start number: {head.Start}",
            .. head.Several ? [$"sensors: {run.Sensor!.Sensors}", $"clipped sensors: {head.ClippedSensors}"] : Array.Empty<string>(),
            .. head.TakesSupply ? [string.Create(CultureInfo.InvariantCulture, $"supply scale: {head.SupplyScale}"), $"supply rail: {head.SupplyRail}"] : Array.Empty<string>(),
            $"axes: {string.Join(", ", run.Sensor!.Axes).ToLowerInvariant()}",
            $"format: {head.Format}",
            $"rate in mHz: {head.RateMilliHz}",
            string.Create(CultureInfo.InvariantCulture, $"scale: {head.Scale}"),
            $"rail: {head.Rail}",
            $"clock: {head.Clock}",
            $"counter: {head.Counter}",
        ];
        if (!head.HoldsSamples)
        {
            return [.. lines, $"text: {run.Sensor.Firmware}"];
        }

        for (var i = 0; i < run.Count; i++)
        {
            var values = Enumerable.Range(0, run.Sensor.Sensors * run.Sensor.Axes.Count).Select(channel => run[channel][i].ToString(CultureInfo.InvariantCulture));
            lines.Add(string.Create(CultureInfo.InvariantCulture, $"sample {i}: {string.Join(", ", values)}{(run.HasSupply ? string.Create(CultureInfo.InvariantCulture, $"; {run.Supply[i]} V") : "")}"));
        }

        return [.. lines, "clipped: " + string.Join(", ", run.Marks[..run.Count].ToArray().Select(mark => head.Sensors > 1 ? Clipped(mark, head.Sensors) : mark == SampleMarks.Clipped ? "yes" : "no"))];
    }

    private static string Clipped(SampleMarks mark, int sensors) =>
        string.Join(' ', Enumerable.Range(0, sensors).Where(sensor => mark.HasFlag(SampleRun.ClippedMark(sensor, sensors))).Select(sensor => sensor + 1));

    private static byte[] Encode(string[] text)
    {
        var fields = text.Select(line => line.Split(": ", 2)).ToDictionary(pair => pair[0], pair => pair[1]);
        var format = Enum.Parse<SampleFormat>(fields["format"]);
        var scale = float.Parse(fields["scale"], CultureInfo.InvariantCulture);
        var supplyScale = float.Parse(fields.GetValueOrDefault("supply scale", "0"), CultureInfo.InvariantCulture);
        var payload = fields.TryGetValue("text", out var firmware)
            ? Encoding.UTF8.GetBytes(firmware)
            : [.. fields.Where(f => f.Key.StartsWith("sample ", StringComparison.Ordinal)).SelectMany(f => f.Value.Split([", ", "; "], StringSplitOptions.None)).SelectMany(Value)];
        var head = new FrameHead
        {
            Kind = Enum.Parse<FrameKind>(fields["kind"]),
            Flags = Enum.Parse<FrameFlags>(fields["flags"]),
            Length = ushort.Parse(fields["length"], CultureInfo.InvariantCulture),
            Sequence = ushort.Parse(fields["sequence"], CultureInfo.InvariantCulture),
            Start = ushort.Parse(fields["start number"], CultureInfo.InvariantCulture),
            Sensors = byte.Parse(fields.GetValueOrDefault("sensors", "1"), CultureInfo.InvariantCulture),
            ClippedSensors = byte.Parse(fields.GetValueOrDefault("clipped sensors", "0"), CultureInfo.InvariantCulture),
            SupplyScale = supplyScale,
            SupplyRail = uint.Parse(fields.GetValueOrDefault("supply rail", "0"), CultureInfo.InvariantCulture),
            Axes = FrameAxes.Bits(fields["axes"].Split(", ").Select(name => Enum.Parse<Axis>(name, ignoreCase: true))),
            Format = format,
            RateMilliHz = uint.Parse(fields["rate in mHz"], CultureInfo.InvariantCulture),
            Scale = scale,
            Rail = uint.Parse(fields["rail"], CultureInfo.InvariantCulture),
            Clock = ulong.Parse(fields["clock"], CultureInfo.InvariantCulture),
            Counter = ulong.Parse(fields["counter"], CultureInfo.InvariantCulture),
        };
        var frame = new byte[head.HeadLength + payload.Length + FrameHead.TailSize];
        payload.CopyTo(frame, head.HeadLength);
        Assert.Equal(frame.Length, FrameEncoder.Seal(frame, head));
        return frame;

        byte[] Value(string value)
        {
            var volts = value.EndsWith(" V", StringComparison.Ordinal);
            var raw = double.Parse(volts ? value[..^2] : value, CultureInfo.InvariantCulture) / (volts ? supplyScale : scale);
            var bytes = new byte[4];
            if (format == SampleFormat.Float32)
            {
                BinaryPrimitives.WriteSingleLittleEndian(bytes, (float)raw);
            }
            else
            {
                BinaryPrimitives.WriteInt32LittleEndian(bytes, (int)raw);
            }

            return bytes[..FrameHead.BytesOf(format)];
        }
    }
}
