using StrokeWatch.Machine.Feeder;
using StrokeWatch.Sensors.Simulated.Faults;

namespace StrokeWatch.Sensors.Simulated.Histories;

/// <summary>The life of a random feeder over some weeks as dated captures, healthy at first, with one fault that comes, or none; the same for the same seed.</summary>
public sealed record FaultHistory
{
    private const int Stream = 40;
    private const double HealthyShare = 0.15;
    private const double SmallestShare = 0.05;

    /// <summary>Gets the seed.</summary>
    public required ulong Seed { get; init; }

    /// <summary>Gets the kind of fault; null where the feeder stays healthy.</summary>
    public required string? Kind { get; init; }

    /// <summary>Gets how the fault comes.</summary>
    public required FaultGrowth Growth { get; init; }

    /// <summary>Gets when the fault comes; the first capture's date where it was there at commissioning, null where there is none.</summary>
    public required DateTimeOffset? Onset { get; init; }

    /// <summary>Gets the feeder as its file would describe it.</summary>
    public required FeederDescription Feeder { get; init; }

    /// <summary>Gets the captures in order of date.</summary>
    public required IReadOnlyList<HistoryCapture> Captures { get; init; }

    /// <summary>Draws a history.</summary>
    public static FaultHistory Draw(ulong seed, HistoryWishes? wishes = null)
    {
        wishes ??= new();
        var random = new SeededRandom(seed, Stream);

        // Everything is drawn whether it is asked for or not, so that a wish changes nothing else.
        var (_, _, many, grows, far) = (random.Uniform(), random.Uniform(), random.Uniform(), random.Uniform(), random.Uniform());
        var (comes, day) = (random.Uniform(), random.Uniform());
        var fault = wishes.Kind is { } kind ? kind == HistoryWishes.Healthy ? null : kind : DrawKind(seed);
        var count = Math.Clamp(wishes.Captures ?? 8 + (int)(5 * many), 2, 100);
        var growth = wishes.Growth ?? (FaultGrowth)(int)(3 * grows);
        var severity = Math.Clamp(wishes.Severity ?? 0.5 + (0.5 * far), 0, 1);
        var first = wishes.First ?? new DateTimeOffset(2026, 1, 5, 8, 0, 0, TimeSpan.Zero).AddDays(Math.Floor(200 * day));
        var dates = new DateTimeOffset[count];
        for (var i = 0; i < count; i++)
        {
            dates[i] = i == 0 ? first : dates[i - 1].AddMinutes(Math.Round(1440 * (2 + (4 * random.Uniform()))));
        }

        var always = fault is not null && FaultTable.FromCommissioning(fault);
        var healthyCaptures = always ? 0 : Math.Clamp((int)Math.Round(count * (0.4 + (0.25 * comes))), 1, count - 1);
        var onset = always ? first : dates[healthyCaptures - 1] + (0.5 * (dates[healthyCaptures] - dates[healthyCaptures - 1]));
        var machine = FeederDraw.Draw(seed, fault, severity);
        List<HistoryCapture> captures = [];
        for (var i = 0; i < count; i++)
        {
            var now = fault is null || i < healthyCaptures ? 0 : always ? severity : severity * Share(growth, (dates[i] - onset) / (dates[^1] - onset));
            captures.Add(new(dates[i], now, FeederDraw.Capture(machine, seed, i, dates[i], now > 0 ? new SimulatedFault(fault!, now) : null)));
        }

        return new()
        {
            Seed = seed,
            Kind = fault,
            Growth = always ? FaultGrowth.Sudden : growth,
            Onset = fault is null ? null : onset,
            Feeder = machine.Feeder,
            Captures = captures,
        };
    }

    /// <summary>Gives only the kind of fault that chance draws; null where the feeder stays healthy.</summary>
    internal static string? DrawKind(ulong seed)
    {
        var random = new SeededRandom(seed, Stream);
        var (healthy, which) = (random.Uniform(), random.Uniform());
        return healthy < HealthyShare ? null : FaultTable.Names[(int)(which * FaultTable.Names.Count)];
    }

    private static double Share(FaultGrowth growth, double passed) => growth switch
    {
        FaultGrowth.Linear => passed,
        FaultGrowth.Exponential => Math.Pow(SmallestShare, 1 - passed),
        _ => 1,
    };
}
