using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Samples.Csv;

/// <summary>Which columns of a table are taken, for what, and in which unit.</summary>
internal sealed record ColumnPlan
{
    /// <summary>What <see cref="Slots"/> says of a column that is not taken, and of the time column.</summary>
    public const int Unused = -1, TimeSlot = -2;

    /// <summary>Gets the time column from 0; -1 where there is none.</summary>
    public required int Time { get; init; }

    /// <summary>Gets whether the time column holds times of the clock, not numbers.</summary>
    public required bool ClockTime { get; init; }

    /// <summary>Gets the unit of the time column.</summary>
    public required TimeUnit TimeUnit { get; init; }

    /// <summary>Gets the acceleration columns from 0.</summary>
    public required int[] Columns { get; init; }

    /// <summary>Gets the axis of each of them.</summary>
    public required Axis[] Axes { get; init; }

    /// <summary>Gets the place of the sensor of each of them; empty where there is one sensor.</summary>
    public SensorPlace[] Places { get; init; } = [];

    /// <summary>Gets their unit; of several sensors the first one's.</summary>
    public required AccelerationUnit Unit { get; init; }

    /// <summary>Gets the cells beyond which a row is too long.</summary>
    public required int MostCells { get; init; }

    /// <summary>Gets the factor from a cell to m/s², one a column.</summary>
    public required double[] Scales { get; init; }

    /// <summary>Gets the column of the supply's voltage from 0; -1 where there is none.</summary>
    public int Supply { get; init; } = -1;

    /// <summary>Gets the factor from a cell of the supply's column to volts.</summary>
    public double SupplyScale { get; init; } = 1;

    /// <summary>Gets the numbers read of a row beside its time: the accelerations, and after them the supply's voltage where it is there.</summary>
    public int Values => Columns.Length + (Supply >= 0 ? 1 : 0);

    /// <summary>Gives the factor of each of these numbers, the supply's voltage last.</summary>
    public double[] AllScales() => Supply < 0 ? Scales : [.. Scales, SupplyScale];

    /// <summary>Gives for each column up to the last that is taken its place among these numbers, or why it has none.</summary>
    public int[] Slots()
    {
        var slots = new int[Math.Max(Math.Max(Time, Supply), Columns.Max()) + 1];
        Array.Fill(slots, Unused);
        for (var i = 0; i < Columns.Length; i++)
        {
            slots[Columns[i]] = i;
        }

        if (Supply >= 0)
        {
            slots[Supply] = Columns.Length;
        }

        if (Time >= 0)
        {
            slots[Time] = TimeSlot;
        }

        return slots;
    }
}
