using System.Buffers.Binary;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

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
        nuint i = channels == 3 && first == 0 && BitConverter.IsLittleEndian && Vector128.IsHardwareAccelerated ? Fours(ref from, scale, x.Length, ref toX, ref toY, ref toZ) : 0;
        for (var j = i * (nuint)channels; i < (nuint)x.Length; i++, j += (nuint)channels)
        {
            Unsafe.Add(ref toX, i) = BitConverter.Int32BitsToSingle(Little(Unsafe.Add(ref from, j))) * scale;
            Unsafe.Add(ref toY, i) = BitConverter.Int32BitsToSingle(Little(Unsafe.Add(ref from, j + 1))) * scale;
            Unsafe.Add(ref toZ, i) = BitConverter.Int32BitsToSingle(Little(Unsafe.Add(ref from, j + 2))) * scale;
        }
    }

    /// <summary>Reads frames of three floats, four frames at a time, and says how many: twelve floats are three loads, turned about into four of each channel.</summary>
    private static nuint Fours(ref int bits, double scale, int frames, ref double x, ref double y, ref double z)
    {
        ref var from = ref Unsafe.As<int, float>(ref bits);
        var whole = (nuint)(frames & ~3);
        var (second, third) = (Vector128.Create(0, -1, 0, 0).AsSingle(), Vector128.Create(0, 0, -1, 0).AsSingle());
        for (nuint i = 0; i < whole; i += 4)
        {
            // a = x0 y0 z0 x1, b = y1 z1 x2 y2, c = z2 x3 y3 z3
            var (a, b, c) = (Vector128.LoadUnsafe(ref from, 3 * i), Vector128.LoadUnsafe(ref from, (3 * i) + 4), Vector128.LoadUnsafe(ref from, (3 * i) + 8));
            var x0321 = Vector128.ConditionalSelect(third, b, Vector128.ConditionalSelect(second, c, a));
            var y1032 = Vector128.ConditionalSelect(second, a, Vector128.ConditionalSelect(third, c, b));
            var z2103 = Vector128.ConditionalSelect(third, a, Vector128.ConditionalSelect(second, b, c));
            Store(Vector128.Shuffle(x0321, Vector128.Create(0, 3, 2, 1)), scale, ref x, i);
            Store(Vector128.Shuffle(y1032, Vector128.Create(1, 0, 3, 2)), scale, ref y, i);
            Store(Vector128.Shuffle(z2103, Vector128.Create(2, 1, 0, 3)), scale, ref z, i);
        }

        return whole;
    }

    private static void Store(Vector128<float> values, double scale, ref double into, nuint at)
    {
        if (Avx.IsSupported)
        {
            (Avx.ConvertToVector256Double(values) * scale).StoreUnsafe(ref into, at);
            return;
        }

        var (low, high) = Vector128.Widen(values);
        (low * scale).StoreUnsafe(ref into, at);
        (high * scale).StoreUnsafe(ref into, at + 2);
    }

    private static short Little(short value) => BitConverter.IsLittleEndian ? value : BinaryPrimitives.ReverseEndianness(value);

    private static int Little(int value) => BitConverter.IsLittleEndian ? value : BinaryPrimitives.ReverseEndianness(value);
}
