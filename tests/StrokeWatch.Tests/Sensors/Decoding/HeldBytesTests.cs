using StrokeWatch.Sensors.Decoding;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Decoding;

public sealed class HeldBytesTests
{
    [Fact]
    public void Bytes_come_out_in_the_order_they_went_in_and_none_is_taken_without_room()
    {
        const int Seed = 31;
        const int Capacity = 10;
        var random = new Random(Seed);
        var held = new HeldBytes(Capacity);
        var expected = new Queue<byte>();
        byte next = 0;
        for (var step = 0; step < 2000; step++)
        {
            var offered = Enumerable.Range(0, random.Next(8)).Select(i => (byte)(next + i)).ToArray();
            var taken = held.Take(offered);
            Assert.Equal(Math.Min(offered.Length, Capacity - expected.Count), taken);
            next += (byte)taken;
            foreach (var value in offered.AsSpan(0, taken))
            {
                expected.Enqueue(value);
            }

            Assert.Equal(expected, held.All.ToArray());
            var dropped = random.Next(expected.Count + 1);
            held.Drop(dropped);
            Enumerable.Range(0, dropped).ToList().ForEach(_ => expected.Dequeue());
        }

        held.Clear();
        Assert.True(held.All.IsEmpty);
        Assert.Throws<ArgumentOutOfRangeException>(() => held.Drop(1));
    }
}
