using System.Buffers.Binary;
using System.Text;

namespace StrokeWatch.Benchmarks.Fuzzing;

/// <summary>Changes good inputs a little or much: bits, bytes, numbers at their ends, pieces doubled, cut, moved, taken from another input, and words that mean something.</summary>
internal sealed class Mutator(IReadOnlyList<byte[]> corpus, IReadOnlyList<string> words, int longest)
{
    private const int MostSteps = 8, Piece = 64;
    private static readonly long[] Ends = [0, 1, -1, 127, 128, 255, 256, 32767, -32768, 65535, int.MaxValue, int.MinValue, uint.MaxValue, long.MaxValue, long.MinValue];

    /// <summary>Makes an input.</summary>
    public byte[] Make(Random random)
    {
        List<byte> bytes = [.. corpus[random.Next(corpus.Count)]];
        for (var step = 1 + random.Next(1 + random.Next(MostSteps)); step > 0; step--)
        {
            Change(bytes, random);
        }

        return bytes.Count <= longest ? [.. bytes] : [.. bytes[..longest]];
    }

    private void Change(List<byte> bytes, Random random)
    {
        var at = bytes.Count == 0 ? 0 : random.Next(random.Next(2) == 0 ? bytes.Count : Math.Min(bytes.Count, 200));
        var length = Math.Min(1 + random.Next(random.Next(8) == 0 ? Math.Max(1, bytes.Count) : Piece), bytes.Count - at);
        switch (random.Next(10))
        {
            case 0 when bytes.Count > 0:
                bytes[at] ^= (byte)(1 << random.Next(8));
                break;
            case 1 when bytes.Count > 0:
                bytes[at] = (byte)random.Next(256);
                break;
            case 2:
                bytes.RemoveRange(at, length);
                break;
            case 3:
                bytes.InsertRange(at, bytes.GetRange(at, length));
                break;
            case 4:
                var piece = bytes.GetRange(at, length);
                bytes.RemoveRange(at, length);
                bytes.InsertRange(random.Next(bytes.Count + 1), piece);
                break;
            case 5:
                var other = corpus[random.Next(corpus.Count)];
                var from = random.Next(other.Length);
                bytes.InsertRange(at, other[from..Math.Min(other.Length, from + 1 + random.Next(4 * Piece))]);
                break;
            case 6:
                bytes.RemoveRange(at, bytes.Count - at);
                break;
            case 7:
                Put(bytes, at, random);
                break;
            case 8:
                var noise = new byte[random.Next(Piece)];
                random.NextBytes(noise);
                bytes.InsertRange(at, noise);
                break;
            default:
                var word = Encoding.UTF8.GetBytes(words.Count == 0 ? "0" : words[random.Next(words.Count)]);
                if (random.Next(2) == 0)
                {
                    bytes.RemoveRange(at, Math.Min(word.Length, bytes.Count - at));
                }

                bytes.InsertRange(at, word);
                break;
        }
    }

    private static void Put(List<byte> bytes, int at, Random random)
    {
        Span<byte> number = stackalloc byte[8];
        BinaryPrimitives.WriteInt64LittleEndian(number, Ends[random.Next(Ends.Length)]);
        var size = 1 << random.Next(4);
        for (var i = 0; i < size && at + i < bytes.Count; i++)
        {
            bytes[at + i] = number[random.Next(4) == 0 ? size - 1 - i : i];
        }
    }
}
