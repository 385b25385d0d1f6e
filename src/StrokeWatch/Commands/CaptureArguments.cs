using System.CommandLine;
using System.Globalization;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Commands;

/// <summary>The options that say what a capture does not.</summary>
internal sealed class CaptureArguments
{
    private readonly Option<double?> rate = Numbers.Positive("--rate-hz", "Sampling rate in Hz; wins over the file.");
    private readonly Option<double?> fullScale = Numbers.Positive("--full-scale-g", "The sensor's full scale in g: what the largest integer of a WAV means, and where clipping begins.");
    private readonly Option<double?> counts = Numbers.Positive("--counts-per-g", "Converter counts in one g, for columns of counts.");
    private readonly Option<string?> unit = new("--unit") { Description = "Unit of the acceleration columns: g, mg, kilo_g, m_s2, mm_s2, counts." };
    private readonly Option<string?> timeUnit = new("--time-unit") { Description = "Unit of the time column: s, ms, us, ns." };
    private readonly Option<string?> columns = new("--columns") { Description = "Columns to take, by number from 1 or by name: 2,3,4 or x=2,z=4 or t=1,z=Acceleration; t=none ignores a time column." };
    private readonly Option<string?> supply = new("--supply-channel") { Description = "Channel (WAV) or column (CSV), counted from 1, that holds the supply's voltage." };
    private readonly Option<string?> skip = new("--skip-rows") { Description = "Lines to pass over before the table." };

    /// <summary>Adds the options to a command.</summary>
    public void AddTo(Command command)
    {
        foreach (Option option in (Option[])[rate, unit, columns, fullScale, counts, timeUnit, skip, supply])
        {
            command.Add(option);
        }
    }

    /// <summary>Reads the options; null and one line where one is wrong.</summary>
    public CaptureOptions? Read(ParseResult parsed, out string? error)
    {
        error = null;
        AccelerationUnit? accelerationUnit = null;
        if (parsed.GetValue(unit) is { } unitText)
        {
            if (!AccelerationUnits.TryParse(unitText, out var found))
            {
                error = $"--unit: '{unitText}' is not known; use g, mg, kilo_g, m_s2, mm_s2 or counts";
                return null;
            }

            accelerationUnit = found;
        }

        TimeUnit? time = null;
        if (parsed.GetValue(timeUnit) is { } timeText)
        {
            if (!TimeUnits.TryParse(timeText, out var found))
            {
                error = $"--time-unit: '{timeText}' is not known; use s, ms, us or ns";
                return null;
            }

            time = found;
        }

        int? rows = null;
        if (parsed.GetValue(skip) is { } skipText)
        {
            if (!int.TryParse(skipText, NumberStyles.None, CultureInfo.InvariantCulture, out var number))
            {
                error = $"--skip-rows: '{skipText}' is no whole number; write how many lines to pass over";
                return null;
            }

            rows = number;
        }

        int? voltage = null;
        if (parsed.GetValue(supply) is { } supplyText)
        {
            if (!int.TryParse(supplyText, NumberStyles.None, CultureInfo.InvariantCulture, out var number) || number is < 1 or > 10_000)
            {
                error = $"--supply-channel: '{supplyText}' is no channel; write its number, counted from 1";
                return null;
            }

            voltage = number;
        }

        IReadOnlyList<ColumnChoice>? choices = null;
        if (parsed.GetValue(columns) is { } columnText && !CaptureOptions.TryParseColumns(columnText, out choices, out error))
        {
            error = $"--{error}";
            return null;
        }

        return new()
        {
            RateHz = parsed.GetValue(rate),
            FullScaleG = parsed.GetValue(fullScale),
            CountsPerG = parsed.GetValue(counts),
            Unit = accelerationUnit,
            TimeUnit = time,
            Columns = choices,
            SkipRows = rows,
            SupplyChannel = voltage,
        };
    }
}
