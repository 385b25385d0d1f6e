using System.Collections.Concurrent;
using System.Runtime.InteropServices;
using StrokeWatch.Measurement.Impacts;

namespace StrokeWatch.Benchmarks.Strikes.Training;

/// <summary>Keeps what the windows of seeded runs show of blows, and what has changed in them.</summary>
internal sealed class BlowSheet : IBlowListener
{
    private const int Forgotten = 8;
    private static readonly (int Supply, int Strokes)[] Drives = [(50, 1), (60, 1), (50, 2), (60, 2)];
    private (float[] End, float[] OtherEnd, float[] Orders)? blow, onset;

    /// <summary>Gets what windows show by themselves.</summary>
    public List<BlowRow> Blows { get; private init; } = [];

    /// <summary>Gets what changed windows show.</summary>
    public List<BlowRow> Onsets { get; private init; } = [];

    /// <summary>Gets how many windows there were, judged and weighed or not, by kind, rate and frequency of the stroke.</summary>
    public Dictionary<(StudyKind Kind, int Rate, int Hertz), int> Windows { get; } = [];

    /// <summary>Makes so many runs of a kind, of every rate and drive, and keeps one of so many windows.</summary>
    public static BlowSheet Fill(IReadOnlyList<int> rates, Func<StudyKind, int> runs, int oneOf, int seed)
    {
        var cells = (from kind in Enum.GetValues<StudyKind>() where runs(kind) > 0 from rate in rates from drive in Drives select (kind, rate, drive)).ToList();
        var sheets = new BlowSheet[cells.Count];

        // One by one: cells of contact take as long as ten others and stand side by side.
        Parallel.ForEach(
            Partitioner.Create(Enumerable.Range(0, cells.Count), EnumerablePartitionerOptions.NoBuffering),
            new() { MaxDegreeOfParallelism = Environment.ProcessorCount },
            i => sheets[i] = Cell(cells[i].kind, cells[i].rate, cells[i].drive, runs(cells[i].kind), oneOf, seed));
        return Together(sheets);
    }

    /// <summary>Gives the blows or the onsets of a sheet out of a file of a folder; makes and keeps it where it is not there.</summary>
    public static BlowSheet Kept(string folder, string name, bool onsets, Func<BlowSheet> make)
    {
        var path = Path.Combine(folder, name + ".sheet");
        if (!File.Exists(path))
        {
            var made = make();

            // A run that is broken off leaves no half of a sheet behind under its name.
            using (var writer = new BinaryWriter(File.Create(path + ".new")))
            {
                Write(writer, made.Blows);
                Write(writer, made.Onsets);
                made.WriteWindows(writer);
            }

            File.Move(path + ".new", path, overwrite: true);
        }

        using var reader = new BinaryReader(new BufferedStream(File.OpenRead(path), 1 << 20));
        var sheet = new BlowSheet { Blows = Rows(reader, BlowFeatures.Count, 0, skip: onsets), Onsets = Rows(reader, OnsetFeatures.WithoutTurn, ChangedOrders.Count, skip: !onsets) };
        for (var left = reader.ReadInt32(); left > 0; left--)
        {
            sheet.Windows[((StudyKind)reader.ReadInt32(), reader.ReadInt32(), reader.ReadInt32())] = reader.ReadInt32();
        }

        return sheet;
    }

    /// <summary>Completes the numbers of changed windows by those that follow from them: sheets are kept without.</summary>
    /// <param name="forget">Of some rows the phase is taken as not foretold: trees are to weigh such, too.</param>
    public BlowSheet WithTurn(bool forget)
    {
        Parallel.For(0, Onsets.Count, () => (new OnsetTurn(), new OnsetChange(), new double[OnsetFeatures.Count], new double[ChangedOrders.Count]), (i, _, space) =>
        {
            var foretold = !forget || i % Forgotten != 0;
            Onsets[i] = Onsets[i] with { End = Whole(Onsets[i].End, Onsets[i], foretold, 1, space), OtherEnd = Whole(Onsets[i].OtherEnd, Onsets[i], foretold, -1, space), Orders = [] };
            return space;
        }, _ => { });
        return this;

        static float[] Whole(float[] kept, BlowRow row, bool foretold, int sign, (OnsetTurn Turn, OnsetChange Change, double[] Numbers, double[] Orders) space)
        {
            Widen(kept, space.Numbers);
            Widen(row.Orders, space.Orders);
            OnsetFeatures.FillTurn(space.Turn, space.Numbers, row.Rate);
            OnsetFeatures.FillChange(space.Change, space.Orders, foretold && OnsetChange.Foretold(space.Orders), sign, space.Numbers);
            return Narrow(space.Numbers);
        }

        static void Widen(float[] from, double[] into)
        {
            for (var n = 0; n < from.Length; n++)
            {
                into[n] = from[n];
            }
        }
    }

    /// <summary>Puts sheets together.</summary>
    public static BlowSheet Together(IEnumerable<BlowSheet> sheets)
    {
        var all = new BlowSheet();
        foreach (var sheet in sheets)
        {
            all.Blows.AddRange(sheet.Blows);
            all.Onsets.AddRange(sheet.Onsets);
            foreach (var (cell, windows) in sheet.Windows)
            {
                all.Windows[cell] = all.Windows.GetValueOrDefault(cell) + windows;
            }
        }

        return all;
    }

    /// <inheritdoc/>
    public void Take(ReadOnlySpan<double> end, ReadOnlySpan<double> otherEnd) => blow = (Narrow(end), Narrow(otherEnd), []);

    /// <inheritdoc/>
    public void TakeOnset(ReadOnlySpan<double> end, ReadOnlySpan<double> otherEnd, ReadOnlySpan<double> orders) =>
        onset = (Narrow(end[..OnsetFeatures.WithoutTurn]), Narrow(otherEnd[..OnsetFeatures.WithoutTurn]), Narrow(orders));

    private void WriteWindows(BinaryWriter writer)
    {
        writer.Write(Windows.Count);
        foreach (var ((kind, rate, hertz), windows) in Windows)
        {
            writer.Write((int)kind);
            writer.Write(rate);
            writer.Write(hertz);
            writer.Write(windows);
        }
    }

    private static void Write(BinaryWriter writer, List<BlowRow> rows)
    {
        writer.Write(rows.Count);
        foreach (var row in rows)
        {
            writer.Write((int)row.Kind);
            writer.Write(row.Rate);
            writer.Write(MemoryMarshal.AsBytes(row.End.AsSpan()));
            writer.Write(MemoryMarshal.AsBytes(row.OtherEnd.AsSpan()));
            writer.Write(MemoryMarshal.AsBytes(row.Orders.AsSpan()));
        }
    }

    private static List<BlowRow> Rows(BinaryReader reader, int numbers, int orders, bool skip)
    {
        var count = reader.ReadInt32();
        if (skip)
        {
            reader.BaseStream.Seek((long)count * sizeof(float) * (2 + (2 * numbers) + orders), SeekOrigin.Current);
            return [];
        }

        var rows = new List<BlowRow>(count);
        while (rows.Count < rows.Capacity)
        {
            rows.Add(new((StudyKind)reader.ReadInt32(), reader.ReadInt32(), Numbers(reader, numbers), Numbers(reader, numbers), Numbers(reader, orders)));
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
        for (var run = 0; run < runs; run++)
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
                    sheet.Keep(kind, rate, drive.Supply * drive.Strokes);
                }

                (sheet.blow, sheet.onset) = (null, null);
            });
        }

        return sheet;
    }

    private void Keep(StudyKind kind, int rate, int hertz)
    {
        Windows[(kind, rate, hertz)] = Windows.GetValueOrDefault((kind, rate, hertz)) + 1;
        if (blow is { } alone)
        {
            Blows.Add(new(kind, rate, alone.End, alone.OtherEnd, alone.Orders));
        }

        if (onset is { } changed)
        {
            Onsets.Add(new(kind, rate, changed.End, changed.OtherEnd, changed.Orders));
        }
    }

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
