using StrokeWatch.Configuration;
using StrokeWatch.Measurement.Calibration;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Calibration;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Commands;

/// <summary>The command <c>calibrate tumble</c>: gain, cross-axis gain and bias from six positions at rest.</summary>
internal sealed class TumbleCommand
{
    /// <summary>How far a position leans from plumb where nothing says it, in degrees.</summary>
    public const double UsualTiltDegrees = 1;

    /// <summary>How far the sensitivity in motion is from that at rest where nothing says it, half-width in percent (common practice, no source).</summary>
    public const double UsualLinearityPercent = 0.5;

    private const int BlockSamples = 4096;

    /// <summary>Gets the positions as the user wrote them, each <c>x+=FILE</c>, several joined by commas.</summary>
    public required IReadOnlyList<string> Positions { get; init; }

    /// <summary>Gets the file to write.</summary>
    public required string Target { get; init; }

    /// <summary>Gets how far each position may lean, in degrees.</summary>
    public double TiltDegrees { get; init; } = UsualTiltDegrees;

    /// <summary>Gets how far the sensitivity in motion may be from that at rest, relative half-width.</summary>
    public double Linearity { get; init; } = UsualLinearityPercent / 100;

    /// <summary>Gets local gravity in m/s², if given.</summary>
    public double? Gravity { get; init; }

    /// <summary>Gets the latitude in degrees, if given.</summary>
    public double? Latitude { get; init; }

    /// <summary>Gets the height in metres, if given.</summary>
    public double? Height { get; init; }

    /// <summary>Gets the day as the user wrote it, if given.</summary>
    public string? Date { get; init; }

    /// <summary>Gets what the captures do not say.</summary>
    public CaptureOptions Capture { get; init; } = new();

    /// <summary>Runs; every wrong file is one line on standard error.</summary>
    public int Run(Surroundings surroundings)
    {
        var day = CalibrationOutcome.Day(Date, surroundings, out var dayTrouble);
        var files = Files(out var troubles);
        troubles.AddRange(new[] { dayTrouble, PlaceTrouble() }.OfType<string>());
        troubles = troubles.ConvertAll(trouble => $"strokewatch calibrate tumble: {trouble}");
        var rests = new List<RestingStatistics>();
        if (troubles.Count == 0)
        {
            foreach (var position in TumblePosition.All)
            {
                var rest = Rest(files[position], out var trouble);
                trouble ??= TumbleCheck.Trouble(position, rest) is { } unfit ? $"{files[position]}: {unfit}" : null;
                troubles.AddRange(trouble is null ? [] : [trouble]);
                rests.Add(rest);
            }
        }

        troubles.ForEach(surroundings.Error.WriteLine);
        return troubles.Count > 0 || day is not { } date ? CommandLine.Bad : Write(date, files, rests, surroundings);
    }

    private static double[] Deviations(RestingStatistics rest) => [rest.Deviation(Axis.X), rest.Deviation(Axis.Y), rest.Deviation(Axis.Z)];

    private int Write(DateOnly date, Dictionary<TumblePosition, string> files, List<RestingStatistics> rests, Surroundings surroundings)
    {
        var gravity = Gravity is { } given ? LocalGravity.Given(given) : Latitude is { } latitude ? LocalGravity.At(latitude, Height) : LocalGravity.Unknown;
        var fit = TumbleFit.Of([.. rests.Select(rest => rest.Means)], gravity.Value);
        var budget = TumbleBudget.Of(fit, gravity, TiltDegrees, Linearity);
        var calibration = new SensorCalibration
        {
            Date = date,
            Method = "six-position tumble",
            Gain = fit.Gain,
            Bias = fit.Bias,
            ExpandedUncertainty = StrokeBudget.CoverageFactor * budget.Combined,
            DegreesOfFreedom = budget.EffectiveDegreesOfFreedom ?? double.PositiveInfinity,
        };
        var writer = new CalibrationWriter(calibration, gravity.Value);
        writer.Budget(budget, StrokeBudget.CoverageFactor);
        writer.Table(
            "[residuals]                         # what the positions read beyond K a + b",
            ("deviation_m_s2", CalibrationWriter.Number(fit.ResidualDeviation)),
            ("largest_m_s2", CalibrationWriter.Number(fit.Residuals.Max(three => three.Max(Math.Abs)))));
        for (var p = 0; p < rests.Count; p++)
        {
            var position = TumblePosition.All[p];
            writer.Table(
                "[[position]]",
                ("name", CalibrationWriter.Quoted(position.ToString())),
                ("file", CalibrationWriter.Quoted(files[position])),
                ("samples", FormattableString.Invariant($"{rests[p].Count}")),
                ("mean_m_s2", CalibrationWriter.List(rests[p].Means)),
                ("deviation_m_s2", CalibrationWriter.List(Deviations(rests[p]))),
                ("residual_m_s2", CalibrationWriter.List(fit.Residuals[p])));
        }

        return CalibrationOutcome.Write(Target, calibration, budget, writer, surroundings);
    }

    private string? PlaceTrouble() => (Gravity, Latitude, Height) switch
    {
        ({ }, { }, _) => "--gravity-m-s2 and --latitude exclude each other; give one of them",
        (_, null, { }) => "--height-m stands without --latitude; give both",
        _ => null,
    };

    private Dictionary<TumblePosition, string> Files(out List<string> troubles)
    {
        troubles = [];
        var files = new Dictionary<TumblePosition, string>();
        foreach (var part in Positions.SelectMany(text => text.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)))
        {
            var equals = part.IndexOf('=', StringComparison.Ordinal);
            if (equals < 0 || !TumblePosition.TryParse(part[..equals], out var position) || equals == part.Length - 1)
            {
                troubles.Add($"--positions: '{part}' is no position; write x+=FILE, with the axis that pointed up (+) or down (-)");
            }
            else if (!files.TryAdd(position, part[(equals + 1)..]))
            {
                troubles.Add($"--positions: {position} is given twice; give each of the six positions once");
            }
        }

        var missing = TumblePosition.All.Where(position => !files.ContainsKey(position)).ToList();
        if (missing.Count > 0 && troubles.Count == 0)
        {
            troubles.Add($"--positions: {string.Join(", ", missing)} missing; give each of the six positions once");
        }

        return files;
    }

    private RestingStatistics Rest(string file, out string? trouble)
    {
        trouble = null;
        var rest = new RestingStatistics();
        try
        {
            using var source = CaptureFile.Open(file, Capture);
            var axes = source.Info.Axes;
            if (axes.Count != 3 || axes.Distinct().Count() != 3)
            {
                trouble = $"{file}: has {string.Join(" and ", axes).ToLowerInvariant()} only; a tumble needs x, y and z: name the columns with --columns";
                return rest;
            }

            var block = new SampleBlock(3, BlockSamples);
            while (source.Read(block) == SourceState.Samples)
            {
                rest.Add(block, axes);
            }
        }
        catch (CaptureException unreadable)
        {
            trouble = unreadable.Message;
        }

        return rest;
    }
}
