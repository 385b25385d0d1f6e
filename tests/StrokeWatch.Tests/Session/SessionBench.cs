using StrokeWatch.Assessment;
using StrokeWatch.Assessment.Diagnosis.Checks;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Session;
using Xunit;

namespace StrokeWatch.Tests.Session;

/// <summary>Drives the pure session without book, sensor or terminal, on a machine of two masses on leaves that are softer than their formula by their joints.</summary>
internal sealed class SessionBench
{
    public const double DriveHz = 60;

    private const double Joints = 0.8, FirstMillimetres = 1.50;

    private readonly SessionAdvisor advisor = new(Feeder);

    public SessionBench(string? who = "Kim") => State = SessionMachine.Begin(who, Feeder.Springs!.Rear);

    public static FeederDescription Feeder { get; } = new()
    {
        Name = "Cullet feeder",
        Drive = new(DriveHz, 1, false),
        Band = new(Length.FromMillimetres(1.65), Length.FromMillimetres(1.78), Length.FromMillimetres(1.90)),
        Springs = new()
        {
            Modulus = 205e9,
            LengthMetres = 0.120,
            WidthMetres = 0.075,
            Front = [new(4e-3, 4)],
            Rear = [new(4e-3, 5)],
            Stock = [3e-3, 4e-3, 5e-3],
            MaxRearLeaves = 10,
            EnduranceStress = 300e6,
        },
        Masses = new(35, 70),
    };

    public SessionState State { get; private set; }

    public List<BookTrial> Trials { get; } = [];

    public List<CheckFound> Found { get; } = [];

    public List<BookEntry> Entries { get; } = [];

    public List<MeasurementWish> Wishes { get; } = [];

    public bool Done { get; private set; }

    public bool Live { get; init; } = true;

    /// <summary>Gets or sets how readings differ from the machine's truth.</summary>
    public Func<SessionReading, SessionReading> Distort { get; set; } = reading => reading;

    public SessionStep Asked => SessionMachine.Ask(Scene);

    private SessionScene Scene => new()
    {
        Feeder = Feeder,
        State = State,
        Trials = Trials,
        Found = Found,
        Live = Live,
        Now = new DateTimeOffset(2026, 3, 29, 12, 0, 0, TimeSpan.Zero).AddMinutes(Trials.Count),
        Advisor = advisor,
    };

    /// <summary>Gives the natural frequency in Hz with a rear stack: the square root of stiffness over reduced mass.</summary>
    public static double NaturalHz(IReadOnlyList<LeafLayer> rear, double tray = 35)
    {
        var stiffness = (Feeder.Springs! with { Rear = rear }).Stiffness() * Joints;
        return Math.Sqrt(stiffness / (tray * 70 / (tray + 70))) / (2 * Math.PI);
    }

    /// <summary>Gives the stroke in metres: one over |r² − 1|, 1.50 mm with the first stack.</summary>
    public static double Stroke(IReadOnlyList<LeafLayer> rear)
    {
        static double Far(double hertz) => Math.Abs(Math.Pow(hertz / DriveHz, 2) - 1);
        return FirstMillimetres * 1e-3 * Far(NaturalHz(Feeder.Springs!.Rear)) / Far(NaturalHz(rear));
    }

    /// <summary>Answers; a wish to measure is fulfilled by the machine at once.</summary>
    public SessionTurn Answer(string typed)
    {
        var turn = SessionMachine.Answer(Scene, typed);
        if (turn.Wish is { } wish)
        {
            Wishes.Add(wish);
            turn = SessionMachine.Measured(Scene, Distort(Read(State.Rear)));
        }

        if (turn.Trial is { } trial)
        {
            Trials.Add(trial);
        }

        if (turn.LeavesOutLast is { } note)
        {
            Trials[^1] = Trials[^1] with { Note = note, LeftOut = true };
        }

        if (turn.Check is { } check)
        {
            Found.Add(new(check.Check, check.Answer));
        }

        if (turn.Entry is { } entry)
        {
            Entries.Add(entry);
        }

        State = turn.Next ?? State;
        Done |= turn.Done;
        return turn;
    }

    /// <summary>Goes on from a state that was kept.</summary>
    public void Resume(SessionState kept) => State = SessionMachine.Resume(kept);

    /// <summary>Answers one after another; each must be taken.</summary>
    public SessionBench Go(params string[] answers)
    {
        foreach (var answer in answers)
        {
            var asked = Asked.Id;
            Assert.True(Answer(answer) is { Refused: null, Next: not null }, $"{asked}: {answer}");
        }

        return this;
    }

    /// <summary>Goes to the first measurement.</summary>
    public SessionBench ToMeasure() => Go("1", "1", "1", "1", "1", "1", "");

    /// <summary>Goes on from what is asked by the first choice or Enter until a step is reached.</summary>
    public SessionBench Until(string step, int most = 60)
    {
        for (var i = 0; i < most && State.Step != step; i++)
        {
            Go(Asked.Choices.Count > 0 ? "1" : "");
        }

        Assert.Equal(step, State.Step);
        return this;
    }

    private static SessionReading Read(IReadOnlyList<LeafLayer> rear)
    {
        var stroke = Stroke(rear);
        var verdict = new BandJudge(Feeder.Band).Place(stroke);
        return new(
            new()
            {
                Utc = default,
                Rear = "",
                StrokeMetres = stroke,
                UncertaintyMetres = 0.02 * stroke,
                StrokeSpread = 0.003,
                Verdict = Names.Of(verdict),
                NaturalHz = NaturalHz(rear),
                NaturalUncertaintyHz = 0.05,
                DampingRatio = 0.02,
                Strike = false,
            },
            verdict == Verdict.OverStroke);
    }
}
