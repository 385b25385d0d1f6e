using StrokeWatch.Machine.Feeder;

namespace StrokeWatch.Machine.Tuning;

/// <summary>Every rear stack that the leaves at hand and the clamp allow, mixed ones too.</summary>
public sealed class StackStock
{
    /// <summary>More stacks than this are not gone through: the feeder file asks for a search, not for advice.</summary>
    public const long Most = 2_000_000;

    private readonly (double Thickness, int Most)[] kinds;

    /// <summary>Makes the stock of a feeder with a rear stack installed: leaves of the stock's thicknesses, and what is in the stack already.</summary>
    public StackStock(SpringDescription springs, IReadOnlyList<LeafLayer> installed)
    {
        ArgumentNullException.ThrowIfNull(springs);
        var there = Stacks.Tidy(installed);
        MostAssumed = springs.MaxRearLeaves is null;
        StockAssumed = springs.Stock.Count == 0;
        MostLeaves = springs.MaxRearLeaves ?? Math.Max(there.Sum(layer => layer.Count), springs.Rear.Sum(layer => layer.Count));
        var stock = StockAssumed ? springs.Rear.Select(layer => layer.ThicknessMetres) : springs.Stock;
        var inStock = new List<double>();
        foreach (var thickness in stock.OrderDescending().Where(thickness => !inStock.Exists(other => Math.Abs(other - thickness) < Stacks.SameThickness)))
        {
            inStock.Add(thickness);
        }

        kinds =
        [
            .. inStock.Select(thickness => (thickness, MostLeaves))
                .Concat(there.Where(layer => !inStock.Exists(thickness => Math.Abs(thickness - layer.ThicknessMetres) < Stacks.SameThickness)).Select(layer => (layer.ThicknessMetres, Math.Min(layer.Count, MostLeaves))))
                .OrderByDescending(kind => kind.Item1),
        ];
        Thicknesses = [.. kinds.Select(kind => kind.Thickness)];
        Number = CountStacks();
    }

    /// <summary>Gets the thicknesses in metres, thick first.</summary>
    public IReadOnlyList<double> Thicknesses { get; }

    /// <summary>Gets the most leaves a stack may have.</summary>
    public int MostLeaves { get; }

    /// <summary>Gets whether the file does not say how many leaves the clamp takes, so that no more than it holds are counted on.</summary>
    public bool MostAssumed { get; }

    /// <summary>Gets whether the file names no stock, so that only thicknesses of its rear stack are counted on.</summary>
    public bool StockAssumed { get; }

    /// <summary>Gets how many stacks there are.</summary>
    public long Number { get; }

    /// <summary>Gives every stack as counts of leaves in the order of <see cref="Thicknesses"/>; the array is used again for the next.</summary>
    public IEnumerable<int[]> All()
    {
        var counts = new int[kinds.Length];
        var leaves = 0;
        while (true)
        {
            var i = 0;
            while (i < counts.Length && (counts[i] == kinds[i].Most || leaves == MostLeaves))
            {
                leaves -= counts[i];
                counts[i++] = 0;
            }

            if (i == counts.Length)
            {
                yield break;
            }

            counts[i]++;
            leaves++;
            yield return counts;
        }
    }

    /// <summary>Gives the stack of some counts.</summary>
    public IReadOnlyList<LeafLayer> Stack(IReadOnlyList<int> counts) => Stacks.Tidy(Thicknesses.Select((thickness, i) => new LeafLayer(thickness, counts[i])));

    private long CountStacks()
    {
        // Ways to put n leaves together, kind after kind.
        var ways = new double[MostLeaves + 1];
        ways[0] = 1;
        foreach (var (_, most) in kinds)
        {
            var next = new double[MostLeaves + 1];
            for (var n = 0; n <= MostLeaves; n++)
            {
                for (var k = 0; k <= Math.Min(most, n); k++)
                {
                    next[n] += ways[n - k];
                }
            }

            ways = next;
        }

        return (long)Math.Min(ways.Sum() - 1, long.MaxValue / 2);
    }
}
