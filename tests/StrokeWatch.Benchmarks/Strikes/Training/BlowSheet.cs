using System.Runtime.InteropServices;
using StrokeWatch.Measurement.Impacts;

namespace StrokeWatch.Benchmarks.Strikes.Training;

/// <summary>Keeps what the windows of seeded runs show of blows, and what has changed in them.</summary>
internal sealed class BlowSheet : IBlowListener
{
    private static readonly (int Supply, int Strokes)[] Drives = [(50, 1), (60, 1), (50, 2), (60, 2)];
    private static readonly int[] Rates = [1000, 1250, 1600, 2000, 2500, 3200, 4000, 5000, 6400];

    /// <summary>Up to this rate in Hz look-alikes look so much alike that so many times as many runs are made.</summary>
    private const int LowRate = 1800;
    private const int More = 3;
    private (float[] End, float[] OtherEnd)? blow, onset;

    /// <summary>Gets what windows show by themselves.</summary>
    public List<BlowRow> Blows { get; private init; } = [];

    /// <summary>Gets what changed windows show.</summary>
    public List<BlowRow> Onsets { get; private init; } = [];

    /// <summary>Makes so many runs of every kind, rate and drive and keeps one of so many windows.</summary>
    public static BlowSheet Fill(int runs, int oneOf, int seed, Func<StudyKind, bool> which)
    {
        var cells = (from kind in Enum.GetValues<StudyKind>() where which(kind) from rate in Rates from drive in Drives select (kind, rate, drive)).ToList();
        var sheets = new BlowSheet[cells.Count];
        Parallel.For(0, cells.Count, new() { MaxDegreeOfParallelism = Environment.ProcessorCount }, i => sheets[i] = Cell(cells[i].kind, cells[i].rate, cells[i].drive, cells[i].rate <= LowRate ? More * runs : runs, oneOf, seed));
        return new() { Blows = [.. sheets.SelectMany(sheet => sheet.Blows)], Onsets = [.. sheets.SelectMany(sheet => sheet.Onsets)] };
    }

    /// <summary>Gives a sheet out of a file of a folder; makes and keeps it where it is not there.</summary>
    public static BlowSheet Kept(string? folder, string name, Func<BlowSheet> make)
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
            Write(writer, made.Blows);
            Write(writer, made.Onsets);
            return made;
        }

        using var reader = new BinaryReader(new BufferedStream(File.OpenRead(path), 1 << 20));
        return new() { Blows = Rows(reader, BlowFeatures.Count), Onsets = Rows(reader, OnsetFeatures.Count) };
    }

    /// <summary>Puts sheets together.</summary>
    public static BlowSheet Together(IEnumerable<BlowSheet> sheets)
    {
        var all = new BlowSheet();
        foreach (var sheet in sheets)
        {
            all.Blows.AddRange(sheet.Blows);
            all.Onsets.AddRange(sheet.Onsets);
        }

        return all;
    }

    /// <inheritdoc/>
    public void Take(ReadOnlySpan<double> end, ReadOnlySpan<double> otherEnd) => blow = (Narrow(end), Narrow(otherEnd));

    /// <inheritdoc/>
    public void TakeOnset(ReadOnlySpan<double> end, ReadOnlySpan<double> otherEnd) => onset = (Narrow(end), Narrow(otherEnd));

    private static void Write(BinaryWriter writer, List<BlowRow> rows)
    {
        writer.Write(rows.Count);
        foreach (var row in rows)
        {
            writer.Write((int)row.Kind);
            writer.Write(row.Rate);
            writer.Write(MemoryMarshal.AsBytes(row.End.AsSpan()));
            writer.Write(MemoryMarshal.AsBytes(row.OtherEnd.AsSpan()));
        }
    }

    private static List<BlowRow> Rows(BinaryReader reader, int numbers)
    {
        var rows = new List<BlowRow>(reader.ReadInt32());
        while (rows.Count < rows.Capacity)
        {
            rows.Add(new((StudyKind)reader.ReadInt32(), reader.ReadInt32(), Numbers(reader, numbers), Numbers(reader, numbers)));
        }

        return rows;
    }

    private static float[] Numbers(BinaryReader reader, int count)
    {
        var numbers = new float[count];
        reader.BaseStream.ReadExactly(MemoryMarshal.AsBytes(numbers.AsSpan()));
        return numbers;
    }

    private static BlowSheet Cell(StudyKind kind, int rate, (int Supply, int Strokes) drive, int runs, int oneOf, int seed)
    {
        var (sheet, space, pick) = (new BlowSheet(), new StudyWorkspace(), new Random(seed));
        for (var run = 0; run < Times(kind) * runs; run++)
        {
            // Some healthy machines are such whose strikes have ended.
            var ends = kind == StudyKind.Healthy && run % 2 == 1;
            var made = new StudyRun(
                ends ? StudyKind.Strike + (run / 2 % 3) : kind,
                drive.Supply,
                drive.Strokes,
                rate,
                StrikeStudy.Hash(seed, (int)kind, rate, drive.Supply * drive.Strokes, run),
                space,
                quieter: run % 2 == 0,
                elsewhere: run % 8 == 7 && kind < StudyKind.Faint,
                ends);
            if (double.IsInfinity(made.From))
            {
                continue;
            }

            StrikeStudy.Measure(made, drive.Supply * drive.Strokes, rate, sheet, reading =>
            {
                if (made.Counts(reading.StartSeconds, reading.StartSeconds + reading.LengthSeconds) && pick.Next(oneOf) == 0)
                {
                    sheet.Keep(kind, rate);
                }

                (sheet.blow, sheet.onset) = (null, null);
            });
        }

        return sheet;
    }

    private void Keep(StudyKind kind, int rate)
    {
        if (blow is { } alone)
        {
            Blows.Add(new(kind, rate, alone.End, alone.OtherEnd));
        }

        if (onset is { } changed)
        {
            Onsets.Add(new(kind, rate, changed.End, changed.OtherEnd));
        }
    }

    /// <summary>Gives how many times as many runs are made of kinds that are hard to tell, and of those of which many runs come to nothing: a sensor that clips is mostly not judged at all.</summary>
    private static int Times(StudyKind kind) => kind switch
    {
        StudyKind.StrikeContact or StudyKind.FaintContact or StudyKind.Clipped => 3,
        StudyKind.Rub or StudyKind.PhaseCut or StudyKind.Rattle or StudyKind.Neighbour => 2,
        _ => 1,
    };

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
