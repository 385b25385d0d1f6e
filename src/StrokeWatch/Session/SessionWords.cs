using System.Globalization;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Machine.Tuning;

namespace StrokeWatch.Session;

/// <summary>Every text of the session, in one place: plain words, the same under every culture. What is marked "common practice" has no source.</summary>
internal static class SessionWords
{
    /// <summary>Said before anything else.</summary>
    public static readonly IReadOnlyList<string> Cautions =
    [
        "StrokeWatch is not a safety function: it neither starts nor stops the feeder. You do, and your plant's rules and licensed persons come first.",
        "Before hands go near springs, clamps, tray or air gap: switch off, isolate, lock and tag, and verify that it is dead. Nobody else takes your lock off.",
        "While it runs: hands, tools and clothing away. Read the stroke from the fixed sensor only; hold nothing against the tray.",
        "Where the stroke exceeds its limit or the armature hammers, switch off at once; everything else waits.",
        "The magnet closes its gap without warning and holds loose steel; coils get hot; leaves can be under preload.",
    ];

    /// <summary>Said before hands go near.</summary>
    public static readonly IReadOnlyList<string> LockOut =
    [
        "Switch the feeder off and let it come to rest. Isolate it, put your lock and tag on, and try to start it: it must stay dead.",
        "Let the controller's capacitors discharge (its manual says how long). Prop the tray so that it cannot drop or swing.",
    ];

    /// <summary>Said where a session is resumed that was left with the feeder locked out.</summary>
    public static readonly IReadOnlyList<string> StillLocked =
    [
        "This was left with the feeder locked out. A lock may have been taken off since: try to start it, it must stay dead.",
    ];

    /// <summary>Said before the feeder runs again.</summary>
    public static readonly IReadOnlyList<string> Restart =
    [
        "Take props, tools and leaves away, put the guards back, and get everybody clear.",
        "Whoever put a lock on takes it off. Stand by the switch: start, watch and listen for the first seconds, and switch off at once where it hammers or the stroke runs away.",
    ];

    /// <summary>Said where the stroke exceeds its limit or the armature strikes.</summary>
    public static readonly IReadOnlyList<string> StopNow =
    [
        "STOP THE FEEDER NOW. Switch it off before you read on.",
    ];

    /// <summary>Why lock-out is asked for each time.</summary>
    public const string WhyLockOut = "Hands go between springs, clamps and magnet. A feeder that starts by itself takes fingers; a lock that is yours is the only thing that keeps it dead.";

    /// <summary>Why one should stop the feeder within a measurement.</summary>
    public const string WhyStop =
        "When the current is off the tray swings out at its own, natural frequency. That tells on which side of the tuning curve the feeder stands and by how much, so that one reading is enough to choose the next leaves. Without it any change may go the wrong way.";

    /// <summary>Said where nothing was measured.</summary>
    public const string NothingMeasured = "no trial that counts holds a stroke or a natural frequency: measure first";

    /// <summary>Said where one cannot go back.</summary>
    public const string NoWayBack = "There is nothing to go back to from here.";

    /// <summary>Said where somebody else answered.</summary>
    public const string Elsewhere = "This session went on in another window or on the page; go on there, or start this again with --resume.";

    /// <summary>The note on a trial that does not count.</summary>
    public const string LeftOutNote = "left out: something was wrong with this measurement";

    /// <summary>Said where a session is left.</summary>
    public static string Left(string feederFile, string? configurationFile, string? bookFile) =>
        $"Left. Everything is kept; go on any time with: strokewatch tune session --feeder {Quoted(feederFile)}{(configurationFile is null ? "" : $" --config {Quoted(configurationFile)}")}{(bookFile is null ? "" : $" --book {Quoted(bookFile)}")} --resume";

    /// <summary>Says what the answers are, in one line.</summary>
    public static string NoAnswer(SessionStep asked, string typed)
    {
        var keys = string.Join(", ", SessionStep.Keys[..asked.Choices.Count].AsEnumerable());
        var enter = asked.Choices.FirstOrDefault(choice => choice.Enter) is { } choice ? $", Enter for \"{choice.Words}\"" : "";
        return typed.Length == 0 ? $"Enter alone is no answer here; press {keys}." : $"\"{Short(typed)}\" is no answer here; press {keys}{enter}, b to go back, q to leave, ? for why.";
    }

    /// <summary>Says that stock and clamp allow too many stacks to be gone through.</summary>
    public static string TooManyStacks(long number) => string.Create(
        CultureInfo.InvariantCulture, $"stock and clamp allow {number} stacks, at most {StackStock.Most} are gone through: name fewer thicknesses under springs.stock_mm in the feeder file");

    /// <summary>Gives the procedure for a change of leaves; common practice, no source.</summary>
    public static IReadOnlyList<string> Change(IReadOnlyList<LeafLayer> from, IReadOnlyList<LeafLayer> to)
    {
        string Part(IReadOnlyList<LeafLayer> one, IReadOnlyList<LeafLayer> other) => Stacks.Words(Stacks.Tidy(one.Concat(other))
            .Select(layer => layer with { Count = Stacks.Count(one, layer.ThicknessMetres) - Stacks.Count(other, layer.ThicknessMetres) }).Where(layer => layer.Count > 0));
        var (taken, put) = (Part(from, to), Part(to, from));
        return
        [
            $"The rear stack now: {Stacks.Words(from)}. It becomes: {Stacks.Words(to)}.",
            $"Take out: {taken}. Put in: {put}.",
            "1. Rear stack only. The front stack was set when the feeder was built: never touch it.",
            "2. Loosen the rear clamps evenly, a turn at a time, with the tray propped.",
            "3. A leaf that replaces another has the same thickness, unless the line above says otherwise. Leaves without burrs, edges in line.",
            "4. Leaves and clamped faces dry and clean: no oil, paint, rust or dust; wipe each one.",
            "5. Build the stack the same from the middle outwards; spacers as they were.",
            "(Common practice; your machine's manual comes first.)",
        ];
    }

    /// <summary>What is said of the bolts; common practice, no source.</summary>
    public static readonly IReadOnlyList<string> Bolts =
    [
        "Thread engagement at least 1.5 bolt diameters: a thicker stack may need longer bolts. Replace bolts that are stretched or rusted.",
        "Tighten to the torque in the machine's manual, from the middle outwards, in two rounds. (Common practice.)",
    ];

    /// <summary>What is said of the air gap; common practice, no source.</summary>
    public static readonly IReadOnlyList<string> Gap =
    [
        "Another stack lets the tray sit a little differently: gauge the air gap again at all four corners, with a feeler gauge that is not magnetic, and set it to the manual's value, even all round. (Common practice.)",
        "Fingers out of the gap, magnet dead.",
    ];

    private static string Short(string typed) => new([.. (typed.Length <= 20 ? typed : typed[..20] + "…").Select(c => char.IsControl(c) ? '?' : c)]);

    private static string Quoted(string path) => path.Contains(' ', StringComparison.Ordinal) ? $"\"{path}\"" : path;
}
