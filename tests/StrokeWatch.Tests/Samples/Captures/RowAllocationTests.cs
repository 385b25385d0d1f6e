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
        using var source = CaptureFile.Open(new CaptureBytes("sand.csv", () => new MemoryStream(text)), new());
        var block = new SampleBlock(3, 4096);
        source.Read(block);
        var before = GC.GetAllocatedBytesForCurrentThread();
        while (source.Read(block) == SourceState.Samples)
        {
        }

        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 4096);
        Assert.Equal(100_000, source.Counters.Samples);
    }
}
