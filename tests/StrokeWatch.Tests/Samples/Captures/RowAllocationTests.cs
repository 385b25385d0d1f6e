using System.Text;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Sources;
using Xunit;

namespace StrokeWatch.Tests.Samples.Captures;

[Collection(Undisturbed.Name)]
public sealed class RowAllocationTests
{
    [Fact]
    public void Nothing_is_allocated_for_a_row()
    {
        var text = Encoding.UTF8.GetBytes("t_s,x_g,y_g,z_g\n" + string.Concat(Enumerable.Range(0, 100_000).Select(i => FormattableString.Invariant($"{i / 4000.0:F6},{Math.Sin(i):F6},{Math.Cos(i):F6},1.000000\n"))));
        var least = long.MaxValue;
        for (var pass = 0; pass < 3; pass++)
        {
            // A collection that comes meanwhile counts what was left of the thread's share as well: what a row allocates shows in every pass.
            using var source = CaptureFile.Open(new CaptureBytes("sand.csv", () => new MemoryStream(text)), new());
            var block = new SampleBlock(3, 4096);
            source.Read(block);
            var before = GC.GetAllocatedBytesForCurrentThread();
            while (source.Read(block) == SourceState.Samples)
            {
            }

            least = Math.Min(least, GC.GetAllocatedBytesForCurrentThread() - before);
            Assert.Equal(100_000, source.Counters.Samples);
        }

        Assert.InRange(least, 0, 4096);
    }
}
