using System.Buffers.Binary;
using System.Text;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Commands;

/// <summary>
/// A WAV capture of three channels of 32-bit floats in g. Source: IBM and Microsoft, Multimedia Programming Interface and Data Specifications 1.0
/// (RIFF, WAVE_FORMAT_IEEE_FLOAT = 3 with its fact chunk; from memory).
/// </summary>
internal sealed class WavCaptureSink : ICaptureSink
{
    private const int Channels = 3;
    private const int HeaderBytes = 58;
    private readonly FileStream file;
    private readonly int rateHz;
    private uint samples;

    /// <summary>Makes the file for a whole rate in Hz.</summary>
    public WavCaptureSink(string path, int rateHz)
    {
        this.rateHz = rateHz;
        file = new FileStream(path, FileMode.Create, FileAccess.Write);
        file.Write(Header());
    }

    /// <inheritdoc/>
    public void Write(SampleBlock block, ReadOnlySpan<double> times)
    {
        var bytes = new byte[block.Count * Channels * sizeof(float)];
        for (int i = 0, at = 0; i < block.Count; i++)
        {
            for (var channel = 0; channel < Channels; channel++, at += sizeof(float))
            {
                BinaryPrimitives.WriteSingleLittleEndian(bytes.AsSpan(at), (float)(block[channel][i] / Gravity.Standard));
            }
        }

        file.Write(bytes);
        samples += (uint)block.Count;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        file.Position = 0;
        file.Write(Header());
        file.Dispose();
    }

    private byte[] Header()
    {
        var header = new byte[HeaderBytes];
        var data = samples * Channels * sizeof(float);
        Text(0, "RIFF");
        Number(4, HeaderBytes - 8 + data);
        Text(8, "WAVEfmt ");
        Number(16, 18);
        Number(20, 3 | (Channels << 16));
        Number(24, (uint)rateHz);
        Number(28, (uint)(rateHz * Channels * sizeof(float)));
        Number(32, (Channels * sizeof(float)) | (32 << 16));
        Text(38, "fact");
        Number(42, 4);
        Number(46, samples);
        Text(50, "data");
        Number(54, data);
        return header;

        void Text(int at, string text) => Encoding.ASCII.GetBytes(text, header.AsSpan(at));
        void Number(int at, uint value) => BinaryPrimitives.WriteUInt32LittleEndian(header.AsSpan(at), value);
    }
}
