using System.Globalization;
using StrokeWatch.Machine.Feeder;

namespace StrokeWatch.Machine.Tuning;

/// <summary>What is the same of two stacks, and how one is written.</summary>
public static class Stacks
{
    /// <summary>Thicknesses closer than this are one thickness, in metres.</summary>
    public const double SameThickness = 5e-7;

    /// <summary>Gives a stack with one layer a thickness, thick leaves first, empty layers left out.</summary>
    public static IReadOnlyList<LeafLayer> Tidy(IEnumerable<LeafLayer> stack)
    {
        var tidy = new List<LeafLayer>();
        foreach (var layer in stack.Where(layer => layer.Count > 0).OrderByDescending(layer => layer.ThicknessMetres))
        {
            if (tidy.Count > 0 && Math.Abs(tidy[^1].ThicknessMetres - layer.ThicknessMetres) < SameThickness)
            {
                tidy[^1] = tidy[^1] with { Count = tidy[^1].Count + layer.Count };
            }
            else
            {
                tidy.Add(layer);
            }
        }

        return tidy;
    }

    /// <summary>Says whether two stacks hold the same leaves.</summary>
    public static bool Same(IEnumerable<LeafLayer> one, IEnumerable<LeafLayer> other)
    {
        var (a, b) = (Tidy(one), Tidy(other));
        return a.Count == b.Count && a.Zip(b).All(pair => pair.First.Count == pair.Second.Count && Math.Abs(pair.First.ThicknessMetres - pair.Second.ThicknessMetres) < SameThickness);
    }

    /// <summary>Counts the leaves of a thickness in metres.</summary>
    public static int Count(IEnumerable<LeafLayer> stack, double thickness) =>
        stack.Where(layer => Math.Abs(layer.ThicknessMetres - thickness) < SameThickness).Sum(layer => layer.Count);

    /// <summary>Counts the leaves that come out and go in from one stack to another.</summary>
    public static int Handled(IReadOnlyList<LeafLayer> from, IReadOnlyList<LeafLayer> to) =>
        Tidy(from.Concat(to)).Sum(layer => Math.Abs(Count(from, layer.ThicknessMetres) - Count(to, layer.ThicknessMetres)));

    /// <summary>Writes a stack: <c>4 × 4 mm (0.157 in) + 2 × 3 mm (0.118 in)</c>.</summary>
    public static string Words(IEnumerable<LeafLayer> stack) => Tidy(stack) is { Count: > 0 } layers
        ? string.Join(" + ", layers.Select(layer => string.Create(
            CultureInfo.InvariantCulture, $"{layer.Count} × {layer.ThicknessMetres * 1e3:0.###} mm ({layer.ThicknessMetres / 0.0254:0.000} in)")))
        : "no leaves";
}
