using System.Numerics;

namespace StrokeWatch.Benchmarks.Networks;

/// <summary>Products of matrices laid out row by row.</summary>
internal static class Matrices
{
    /// <summary>Columns of the second matrix and rows of the first come in whole such blocks.</summary>
    public const int Block = 16, Rows = 4;

    /// <summary>Sets a matrix to the product of two, or adds it.</summary>
    /// <param name="a">The first.</param>
    /// <param name="rowStep">How far its rows lie apart; 1 where it is taken turned on its side.</param>
    /// <param name="depthStep">How far its columns lie apart.</param>
    /// <param name="b">The second, of so many columns.</param>
    /// <param name="into">Takes the product.</param>
    /// <param name="rows">Rows of the first, a multiple of <see cref="Rows"/>.</param>
    /// <param name="depth">Columns of the first, rows of the second.</param>
    /// <param name="columns">Columns of the second, a multiple of <see cref="Block"/>.</param>
    public static void Multiply(ReadOnlySpan<float> a, int rowStep, int depthStep, ReadOnlySpan<float> b, Span<float> into, int rows, int depth, int columns)
    {
        var width = Vector<float>.Count;
        for (var column = 0; column < columns; column += 2 * width)
        {
            for (var row = 0; row < rows; row += Rows)
            {
                Vector<float> a0 = default, a1 = default, b0 = default, b1 = default, c0 = default, c1 = default, d0 = default, d1 = default;
                var at = row * rowStep;
                var from = b[column..];
                for (var k = 0; k < depth; k++, at += depthStep)
                {
                    var (x, y) = (new Vector<float>(from[(k * columns)..]), new Vector<float>(from[((k * columns) + width)..]));
                    var value = new Vector<float>(a[at]);
                    (a0, a1) = (Vector.FusedMultiplyAdd(value, x, a0), Vector.FusedMultiplyAdd(value, y, a1));
                    value = new(a[at + rowStep]);
                    (b0, b1) = (Vector.FusedMultiplyAdd(value, x, b0), Vector.FusedMultiplyAdd(value, y, b1));
                    value = new(a[at + (2 * rowStep)]);
                    (c0, c1) = (Vector.FusedMultiplyAdd(value, x, c0), Vector.FusedMultiplyAdd(value, y, c1));
                    value = new(a[at + (3 * rowStep)]);
                    (d0, d1) = (Vector.FusedMultiplyAdd(value, x, d0), Vector.FusedMultiplyAdd(value, y, d1));
                }

                Put(into, (row * columns) + column, a0, a1);
                Put(into, ((row + 1) * columns) + column, b0, b1);
                Put(into, ((row + 2) * columns) + column, c0, c1);
                Put(into, ((row + 3) * columns) + column, d0, d1);
            }
        }
    }

    /// <summary>Turns a matrix on its side.</summary>
    public static void Turn(ReadOnlySpan<float> from, int rows, int columns, Span<float> into)
    {
        for (var row = 0; row < rows; row++)
        {
            for (var column = 0; column < columns; column++)
            {
                into[(column * rows) + row] = from[(row * columns) + column];
            }
        }
    }

    private static void Put(Span<float> into, int at, Vector<float> first, Vector<float> second)
    {
        first.CopyTo(into[at..]);
        second.CopyTo(into[(at + Vector<float>.Count)..]);
    }
}
