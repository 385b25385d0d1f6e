using System.Globalization;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Machine.Tuning;
using StrokeWatch.Outputs.Book;

namespace StrokeWatch.Session;

/// <summary>Advises as <c>tune advise</c> does, and keeps the last advice: the same trials are not worked out twice.</summary>
internal sealed class SessionAdvisor(FeederDescription feeder)
{
    private const double UsualSpread = 0.01;

    private string? known;
    private SessionAdvice? kept;

    /// <summary>Advises on trials that count.</summary>
    public SessionAdvice Advise(IReadOnlyList<BookTrial> counted)
    {
        List<TuningTrial> trials = [.. counted.Select(Trial).OfType<TuningTrial>()];
        if (trials.Count == 0)
        {
            return new(null, null, SessionWords.NothingMeasured);
        }

        var key = string.Join(';', trials.Select(trial => string.Create(
            CultureInfo.InvariantCulture, $"{StackText.Write(trial.Rear)} {trial.StrokeMetres:R} {trial.StrokeSpread:R} {trial.NaturalHz:R} {trial.NaturalSpreadHz:R} {trial.DampingRatio:R} {trial.VoltageRatio:R} {trial.TrayChangeKilograms:R}")));
        if (key == known)
        {
            return kept!;
        }

        known = key;
        return kept = Work(trials);
    }

    /// <summary>Gives the trial as the fit takes it; null where it tells nothing.</summary>
    internal static TuningTrial? Trial(BookTrial trial) => trial is { StrokeMetres: null, NaturalHz: null } || StackText.Read(trial.Rear, out _) is not { } rear ? null : new()
    {
        Rear = rear,
        StrokeMetres = trial.StrokeMetres,
        StrokeSpread = trial.StrokeSpread ?? UsualSpread,
        NaturalHz = trial.NaturalHz,
        NaturalSpreadHz = trial.NaturalUncertaintyHz / 2,
        DampingRatio = trial.DampingRatio,
        VoltageRatio = trial.VoltageRatio ?? 1,
        VoltageRead = trial.VoltageRatio is not null,
        TrayChangeKilograms = trial.TrayChangeKilograms ?? 0,
    };

    private SessionAdvice Work(IReadOnlyList<TuningTrial> trials)
    {
        if (new StackStock(feeder.Springs!, trials[^1].Rear).Number is > StackStock.Most and var number)
        {
            return new(null, null, SessionWords.TooManyStacks(number));
        }

        var posterior = TuningFit.Run(feeder, trials);
        return new(TuningAdvisor.Advise(posterior), posterior, null);
    }
}
