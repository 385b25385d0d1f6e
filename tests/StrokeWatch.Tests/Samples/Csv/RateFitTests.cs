using StrokeWatch.Samples.Csv;
using Xunit;

namespace StrokeWatch.Tests.Samples.Csv;

public sealed class RateFitTests
{
    [Fact]
    public void Rows_taken_together_come_to_what_they_come_to_one_by_one()
    {
        var random = new Random(25);
        for (var run = 0; run < 100; run++)
        {
            var times = Enumerable.Range(0, 500).Select(i => random.Next(run + 2) == 0 ? double.NaN : (i * 0.001) + (1e-5 * random.NextDouble())).ToArray();
            var (together, single) = (new RateFit(0.00101), new RateFit(0.00101));
            for (var from = 0; from < times.Length;)
            {
                var count = Math.Min(random.Next(1, 80), times.Length - from);
                together.Add(times.AsSpan(from, count));
                for (var i = from; i < from + count; i++)
                {
                    single.Add(times.AsSpan(i, 1));
                }

                from += count;
                if (random.Next(5) == 0)
                {
                    together.EndStretch();
                    single.EndStretch();
                }
            }

            together.EndStretch();
            single.EndStretch();
            Assert.Equal((single.Rows, single.Step, single.JitterRms), (together.Rows, together.Step, together.JitterRms));
            Assert.Equal(single.RelativeUncertainty(1e-6), together.RelativeUncertainty(1e-6));
            Assert.InRange(together.Step!.Value, 0.000995, 0.001005);
        }
    }
}
