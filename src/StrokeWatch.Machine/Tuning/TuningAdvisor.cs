using StrokeWatch.Machine.Feeder;

namespace StrokeWatch.Machine.Tuning;

/// <summary>Goes from what the trials say to what to do next; the front stack is never touched.</summary>
public static class TuningAdvisor
{
    /// <summary>A side of the tuning curve is named from this probability on.</summary>
    public const double Sure = 0.9;

    /// <summary>A stack is proposed where it leads to the normal side with this probability.</summary>
    private const double NormalAfter = 0.95;

    /// <summary>A stack that exceeds the over-stroke limit with more than this probability is never proposed.</summary>
    public const double MostOver = 0.01;

    /// <summary>Below this probability that any stack fits, none is said to.</summary>
    private const double NoneFits = 0.03;

    /// <summary>A step without a known side is proposed from this probability of landing in the band on.</summary>
    private const double CautiousEnough = 0.5;

    /// <summary>A natural frequency that was not measured is said where 95 of 100 of the machines lie within this share of it.</summary>
    private const double NarrowEnough = 0.04;

    /// <summary>A stack with less than this chance of landing in the band is not proposed for it.</summary>
    private const double WorthTrying = 0.05;

    /// <summary>A step that only leads nearer to the band is proposed where some stack fits with this probability, and where it takes this share of the way left.</summary>
    private const double StepWorthwhile = 0.1, CloserBy = 0.85;

    /// <summary>A step that leads no nearer, but will tell more, is proposed where some stack fits with this probability, and to so many trials.</summary>
    private const double LessonWorthwhile = 0.5;
    private const int MostLessonTrials = 3;

    private const int Kept = 5;

    /// <summary>Advises.</summary>
    /// <param name="posterior">What the trials say; at least one trial.</param>
    /// <param name="seed">Seed of the clampings and readings that a step may meet.</param>
    /// <exception cref="ArgumentException">There is no trial.</exception>
    public static TuningAdvice Advise(TuningPosterior posterior, int seed = 2)
    {
        ArgumentNullException.ThrowIfNull(posterior);
        if (posterior.Trials.Count == 0)
        {
            throw new ArgumentException("There is no trial.", nameof(posterior));
        }

        var (trials, last) = (posterior.Trials, posterior.Trials[^1]);
        var springs = posterior.Model.Feeder.Springs!;
        var stock = new StackStock(springs, last.Rear);
        var scan = new StackScan(posterior, stock, last.TrayChangeKilograms, seed);
        var present = scan.Predict(last.Rear, last.Rear, asIs: true);
        var side = Side(posterior, present.Normal);
        var choice = new StackChoice(posterior, stock, scan, side switch { CurveSide.Unknown => posterior.HasNatural ? 0.9 : 0.5, _ => NormalAfter });
        var (action, chosen) = Decide(posterior, last, side, present, choice);
        var natural = last.NaturalHz ?? (Narrow(posterior, last) ? present.NaturalHz : null);
        var advice = new TuningAdvice
        {
            Side = side,
            NormalProbability = present.Normal,
            NaturalHz = natural,
            NaturalReason = natural is null ? "no free vibration was read: give natural_frequency_hz of a stop or a start, or a capture with one in it" : null,
            TuningRatio = natural / posterior.Model.DriveHz,
            Action = action,
            Choice = chosen,
            Present = present,
            Alternatives = [.. choice.Ranked.Where(stack => !Stacks.Same(stack.Rear, chosen.Rear)).Take(Kept)],
            Examined = stock.Number,
            AnyFits = choice.AnyFits,
            KilogramsToResonance = side == CurveSide.Unknown ? null : ToResonance(posterior, last),
            Installed = Stacks.Tidy(last.Rear),
            Because = [],
            Warnings = [],
        };
        return advice with { Because = AdviceWords.Because(advice, posterior), Warnings = AdviceWords.Warnings(advice, posterior, stock) };
    }

    /// <summary>Says whether a trial's stroke lies in the band at full voltage, as it was measured.</summary>
    public static bool MeasuredInBand(TuningTrial trial, FeederDescription feeder)
    {
        ArgumentNullException.ThrowIfNull(trial);
        ArgumentNullException.ThrowIfNull(feeder);
        return trial.FullVoltageStroke(feeder) is { } stroke && stroke >= feeder.Band.Low.Metres && stroke <= feeder.Band.High.Metres;
    }

    /// <summary>Says whether a trial ran at full voltage, to the hundredth.</summary>
    public static bool FullVoltage(TuningTrial trial)
    {
        ArgumentNullException.ThrowIfNull(trial);
        return Math.Abs(trial.VoltageRatio - 1) <= 0.01;
    }

    private static (TuningAction, StackPrediction) Decide(TuningPosterior posterior, TuningTrial last, CurveSide side, StackPrediction present, StackChoice choice)
    {
        var inBand = MeasuredInBand(last, posterior.Model.Feeder);
        if (side == CurveSide.Reverse)
        {
            return (TuningAction.AddStiffnessOrLightenTray, choice.Best ?? choice.Nearest ?? present);
        }

        if (inBand && FullVoltage(last))
        {
            return (TuningAction.None, present);
        }

        if (inBand || !posterior.Trials.Any(trial => trial.StrokeMetres is not null))
        {
            return (TuningAction.MeasureFirst, present);
        }

        if (!posterior.HasNatural && side == CurveSide.Unknown && !(choice.Best?.InBand >= CautiousEnough))
        {
            return (TuningAction.MeasureFirst, present);
        }

        if (choice.AnyFits >= NoneFits && choice.Best is { InBand: >= WorthTrying } best)
        {
            return (TuningAction.ChangeRearStack, best);
        }

        return choice.Nearest is { } nearest && StepHelps(posterior, last, present, choice.AnyFits, nearest)
            ? (TuningAction.ChangeRearStack, nearest)
            : (TuningAction.NoStackFits, choice.Nearest ?? present);
    }

    /// <summary>Says whether a safe step should be taken where some stack fits but none that is known to be safe: towards the band, away from over-stroke, or to learn which.</summary>
    private static bool StepHelps(TuningPosterior posterior, TuningTrial last, StackPrediction present, double anyFits, StackPrediction nearest)
    {
        var band = posterior.Model.Feeder.Band;
        var closer = Miss(nearest, band) < CloserBy * Miss(present, band);
        var fromOver = last.FullVoltageStroke(posterior.Model.Feeder) > band.Limit.Metres;
        return nearest.OverLimit <= MostOver && nearest.Normal >= NormalAfter
            && ((anyFits >= StepWorthwhile && (closer || fromOver)) || (anyFits >= LessonWorthwhile && posterior.Trials.Count <= MostLessonTrials));
    }

    /// <summary>Gives by how much a stack's stroke misses the band, in metres.</summary>
    private static double Miss(StackPrediction stack, StrokeBand band) => Math.Max(0, Math.Max(band.Low.Metres - stack.Stroke, stack.Stroke - band.High.Metres));

    /// <summary>Names the side where a free vibration, or strokes with different stacks or trays, tell it; one stroke alone does not, whatever the feeder file says.</summary>
    private static CurveSide Side(TuningPosterior posterior, double normal)
    {
        var trials = posterior.Trials;
        var told = posterior.HasNatural || trials.Skip(1).Any(trial => !Stacks.Same(trial.Rear, trials[0].Rear) || Math.Abs(trial.TrayChangeKilograms - trials[0].TrayChangeKilograms) > 1e-9);
        return !told ? CurveSide.Unknown : normal >= Sure ? CurveSide.Normal : normal <= 1 - Sure ? CurveSide.Reverse : CurveSide.Unknown;
    }

    private static bool Narrow(TuningPosterior posterior, TuningTrial last)
    {
        double Hertz(FeederState state) => FeederModel.FreeHz(state, posterior.Model.Stiffness(state, last.Rear, state.Clamping), last.TrayChangeKilograms);
        return posterior.Quantile(Hertz, 0.975) - posterior.Quantile(Hertz, 0.025) < NarrowEnough * posterior.Quantile(Hertz, 0.5);
    }

    /// <summary>Gives the tray's weight in kg that takes the running natural frequency down to the drive: mᵣ = k/ω².</summary>
    private static double? ToResonance(TuningPosterior posterior, TuningTrial last)
    {
        var square = Math.Pow(2 * Math.PI * posterior.Model.DriveHz, 2);
        var kilograms = posterior.Quantile(
            state =>
            {
                var reduced = (posterior.Model.Stiffness(state, last.Rear, state.Clamping) - state.Softening) / square;
                return reduced >= state.BodyKilograms ? 1e9 : (reduced * state.BodyKilograms / (state.BodyKilograms - reduced)) - state.TrayKilograms - last.TrayChangeKilograms;
            },
            0.5);
        return kilograms < 1e6 ? kilograms : null;
    }
}
