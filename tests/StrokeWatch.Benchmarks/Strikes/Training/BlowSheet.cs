using System.Runtime.InteropServices;
using StrokeWatch.Measurement.Impacts;

namespace StrokeWatch.Benchmarks.Strikes.Training;

/// <summary>Keeps what the windows of seeded runs show of blows.</summary>
internal sealed class BlowSheet : IBlowListener
{
    private static readonly (int Supply, int Strokes)[] Drives = [(50, 1), (60, 1), (50, 2), (60, 2)];
    private static readonly int[] Rates = [1000, 1250, 1600, 2000, 2500, 3200, 4000, 5000, 6400];
    private float[]? end, otherEnd;

    /// <summary>Gets the rows of one drive, rate and kind: whether there is a blow, and the numbers about both ends of the path.</summary>
    public List<(StudyKind Kind, int Rate, float[] End, float[] OtherEnd)> Rows { get; } = [];

    /// <summary>Makes so many runs of every kind, rate and drive and gives what their windows show.</summary>
    public static List<(StudyKind Kind, int Rate, float[] End, float[] OtherEnd)> Fill(int runs, int most, int seed, Func<StudyKind, bool> which)
    {
        var cells = (from kind in Enum.GetValues<StudyKind>() where kind != StudyKind.Clipped && which(kind) from rate in Rates from drive in Drives select (kind, rate, drive)).ToList();
        var sheets = new BlowSheet[cells.Count];
        Parallel.For(0, cells.Count, new() { MaxDegreeOfParallelism = Environment.ProcessorCount }, i => sheets[i] = Cell(cells[i].kind, cells[i].rate, cells[i].drive, runs, most, seed));
        return [.. sheets.SelectMany(sheet => sheet.Rows)];
    }

    /// <summary>Gives rows out of a file of a folder; makes and keeps them where it is not there.</summary>
    public static List<(StudyKind Kind, int Rate, float[] End, float[] OtherEnd)> Kept(string? folder, string name, Func<List<(StudyKind Kind, int Rate, float[] End, float[] OtherEnd)>> make)
    {
        if (folder is null)
        {
            return make();
        }

        var path = Path.Combine(folder, name + ".sheet");
        if (!File.Exists(path))
        {
            var made = make();
            using var writer = new BinaryWriter(File.Create(path));
            foreach (var (kind, rate, end, otherEnd) in made)
            {
                writer.Write((int)kind);
                writer.Write(rate);
                writer.Write(MemoryMarshal.AsBytes(end.AsSpan()));
                writer.Write(MemoryMarshal.AsBytes(otherEnd.AsSpan()));
            }

            return made;
        }

        using var reader = new BinaryReader(new BufferedStream(File.OpenRead(path), 1 << 20));
        var rows = new List<(StudyKind, int, float[], float[])>();
        while (reader.BaseStream.Position < reader.BaseStream.Length)
        {
            rows.Add(((StudyKind)reader.ReadInt32(), reader.ReadInt32(), Numbers(reader), Numbers(reader)));
        }

        return rows;
    }

    private static float[] Numbers(BinaryReader reader)
    {
        var numbers = new float[BlowFeatures.Count];
        reader.BaseStream.ReadExactly(MemoryMarshal.AsBytes(numbers.AsSpan()));
        return numbers;
    }

    /// <inheritdoc/>
    public void Take(ReadOnlySpan<double> end, ReadOnlySpan<double> otherEnd) => (this.end, this.otherEnd) = (Narrow(end), Narrow(otherEnd));

    private static BlowSheet Cell(StudyKind kind, int rate, (int Supply, int Strokes) drive, int runs, int most, int seed)
    {
        var (sheet, space) = (new BlowSheet(), new StudyWorkspace());
        for (var run = 0; run < (Hard(kind) ? 2 * runs : runs); run++)
        {
            var made = new StudyRun(kind, drive.Supply, drive.Strokes, rate, StrikeStudy.Hash(seed, (int)kind, rate, drive.Supply * drive.Strokes, run), space, quieter: run % 2 == 0, elsewhere: run % 8 == 7 && kind < StudyKind.Faint);
            if (kind <= StudyKind.FaintContact && double.IsInfinity(made.Onset))
            {
                continue;
            }

            var from = Math.Max(0.5, double.IsInfinity(made.Onset) ? 0 : made.Onset);
            var kept = 0;
            StrikeStudy.Measure(made, drive.Supply * drive.Strokes, rate, sheet, reading =>
            {
                if (sheet.end is { } end && reading.StartSeconds >= from && reading.StartSeconds + reading.LengthSeconds < made.Seconds - 0.05 && kept++ < most)
                {
                    sheet.Rows.Add((kind, rate, end, sheet.otherEnd!));
                }

                sheet.end = null;
            });
        }

        return sheet;
    }

    /// <summary>Says whether a kind is one of those that are hard to tell, of which more is to be learnt.</summary>
    private static bool Hard(StudyKind kind) => kind is StudyKind.StrikeContact or StudyKind.FaintContact or StudyKind.Rub or StudyKind.PhaseCut or StudyKind.Rattle or StudyKind.Neighbour;

    private static float[] Narrow(ReadOnlySpan<double> values)
    {
        var narrow = new float[values.Length];
        for (var i = 0; i < narrow.Length; i++)
        {
            narrow[i] = (float)values[i];
        }

        return narrow;
    }
}
