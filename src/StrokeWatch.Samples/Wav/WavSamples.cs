using System.Buffers.Binary;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace StrokeWatch.Samples.Wav;

/// <summary>Turns interleaved bytes into one channel's numbers.</summary>
internal static class WavSamples
{
    /// <summary>Gets the largest integer of an encoding plus one: what full scale means; 1 for floats.</summary>
    public static double Span(WavEncoding encoding) => encoding switch
    {
        WavEncoding.Int16 => 32_768,
        WavEncoding.Int24 => 8_388_608,
        WavEncoding.Int32 => 2_147_483_648,
        _ => 1,
    };

    /// <summary>Says whether an encoding is one of integers.</summary>
    public static bool IsInteger(WavEncoding encoding) => encoding is WavEncoding.Int16 or WavEncoding.Int24 or WavEncoding.Int32;

    /// <summary>Gets the bytes of one number.</summary>
    public static int Bytes(WavEncoding encoding) => encoding switch
    {
        WavEncoding.Int16 => 2,
        WavEncoding.Int24 => 3,
        WavEncoding.Float64 => 8,
        _ => 4,
    };

    /// <summary>Reads one channel of whole frames, multiplied by a scale.</summary>
    public static void Read(ReadOnlySpan<byte> frames, WavEncoding encoding, int channel, int channels, double scale, Span<double> into)
    {
        switch (encoding)
        {
            case WavEncoding.Int16:
                var shorts = MemoryMarshal.Cast<byte, short>(frames);
                for (int i = 0, j = channel; i < into.Length; i++, j += channels)
                {
                    into[i] = Little(shorts[j]) * scale;
                }

                break;
            case WavEncoding.Int24:
                for (int i = 0, j = 3 * channel; i < into.Length; i++, j += 3 * channels)
                {
                    into[i] = (((sbyte)frames[j + 2] << 16) | (frames[j + 1] << 8) | frames[j]) * scale;
                }

                break;
            case WavEncoding.Int32:
                var ints = MemoryMarshal.Cast<byte, int>(frames);
                for (int i = 0, j = channel; i < into.Length; i++, j += channels)
                {
                    into[i] = Little(ints[j]) * scale;
                }

                break;
            case WavEncoding.Float32:
                Floats(MemoryMarshal.Cast<byte, int>(frames), channel, channels, scale, into);
                break;
            default:
                var longs = MemoryMarshal.Cast<byte, long>(frames);
                for (int i = 0, j = channel; i < into.Length; i++, j += channels)
                {
                    into[i] = BitConverter.Int64BitsToDouble(BitConverter.IsLittleEndian ? longs[j] : BinaryPrimitives.ReverseEndianness(longs[j])) * scale;
                }

                break;
        }
    }

    private static void Floats(ReadOnlySpan<int> bits, int channel, int channels, double scale, Span<double> into)
    {
        if (into.Length == 0 || bits.Length < (into.Length - 1) * channels + channel + 1)
        {
            return;
        }

        // The one encoding of long recordings: the check is made once, not a sample.
        ref var from = ref Unsafe.Add(ref MemoryMarshal.GetReference(bits), channel);
        ref var to = ref MemoryMarshal.GetReference(into);
        for (var i = 0; i < into.Length; i++)
        {
            Unsafe.Add(ref to, i) = BitConverter.Int32BitsToSingle(Little(Unsafe.Add(ref from, i * channels))) * scale;
        }
    }

    /// <summary>Reads three channels of 32-bit floats that follow one another in every frame, multiplied by a scale: one pass instead of three.</summary>
    /// <param name="frames">Whole frames.</param>
    /// <param name="first">The first of the three channels.</param>
    /// <param name="channels">The channels of a frame.</param>
    /// <param name="scale">The scale.</param>
    /// <param name="x">Takes the first channel, one value a frame.</param>
    /// <param name="y">Takes the second.</param>
    /// <param name="z">Takes the third.</param>
    public static void ReadThree(ReadOnlySpan<byte> frames, int first, int channels, double scale, Span<double> x, Span<double> y, Span<double> z)
    {
        var bits = MemoryMarshal.Cast<byte, int>(frames);
        if (x.Length == 0 || bits.Length < (x.Length - 1) * channels + first + 3 || y.Length != x.Length || z.Length != x.Length)
        {
            return;
        }

        ref var from = ref Unsafe.Add(ref MemoryMarshal.GetReference(bits), first);
        ref var toX = ref MemoryMarshal.GetReference(x);
        ref var toY = ref MemoryMarshal.GetReference(y);
        ref var toZ = ref MemoryMarshal.GetReference(z);
        for (nuint i = 0, j = 0; i < (nuint)x.Length; i++, j += (nuint)channels)
        {
            Unsafe.Add(ref toX, i) = BitConverter.Int32BitsToSingle(Little(Unsafe.Add(ref from, j))) * scale;
            Unsafe.Add(ref toY, i) = BitConverter.Int32BitsToSingle(Little(Unsafe.Add(ref from, j + 1))) * scale;
            Unsafe.Add(ref toZ, i) = BitConverter.Int32BitsToSingle(Little(Unsafe.Add(ref from, j + 2))) * scale;
        }
    }

    private static short Little(short value) => BitConverter.IsLittleEndian ? value : BinaryPrimitives.ReverseEndianness(value);

    private static int Little(int value) => BitConverter.IsLittleEndian ? value : BinaryPrimitives.ReverseEndianness(value);
}
