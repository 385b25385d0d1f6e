using System.Globalization;
using StrokeWatch.Machine.Tuning;
using StrokeWatch.Outputs.Book;

namespace StrokeWatch.Session;

/// <summary>The record of a session in words.</summary>
internal static class SessionRecord
{
    /// <summary>Gives what was reached, in a sentence for the machine book.</summary>
    public static string Tuned(SessionScene scene) => scene.Last is not { } last
        ? "Tuning session closed."
        : string.Create(
            CultureInfo.InvariantCulture,
            $"Tuned into its band: {SessionNumbers.Stroke(last)} (k = 2) with {StackText.Write(scene.State.Rear)} in the rear{(scene.State.BaselineVersion is { } version ? $"; baseline version {version}" : "")}.");

    /// <summary>Gives the record's lines.</summary>
    public static IReadOnlyList<string> Lines(SessionScene scene)
    {
        var (state, trials) = (scene.State, scene.Trials);
        var changes = trials.Zip(trials.Skip(1)).Count(pair => pair.First.Rear != pair.Second.Rear);
        return
        [
            $"feeder     {scene.Feeder.Name}",
            string.Create(CultureInfo.InvariantCulture, $"date       {scene.Now.UtcDateTime:yyyy-MM-dd HH:mm} UTC"),
            $"signed     {state.Who ?? "nobody"}",
            .. trials.Select((trial, place) => Line(trial, place)),
            string.Create(CultureInfo.InvariantCulture, $"changes    {changes} of the rear stack; now in: {Stacks.Words(state.Rear)}"),
            .. scene.Last is { } last ? [$"final      {SessionNumbers.Stroke(last)} (k = 2): {SessionNumbers.Verdict(last.Verdict)}"] : Array.Empty<string>(),
            state.BaselineVersion is { } version ? string.Create(CultureInfo.InvariantCulture, $"baseline   version {version}, told by this session") : "baseline   kept as it was",
            .. ToWriteDown(scene),
        ];
    }

    /// <summary>Says what the feeder file must be told where its rear stack is no longer the one that is in: later advice and sheets start from the file.</summary>
    private static string[] ToWriteDown(SessionScene scene)
    {
        if (scene.Feeder.Springs is not { } springs || StackText.Write(springs.Rear) == StackText.Write(scene.State.Rear))
        {
            return [];
        }

        var layers = Stacks.Tidy(scene.State.Rear).Select(layer => string.Create(CultureInfo.InvariantCulture, $"{{ thickness_mm = {layer.ThicknessMetres * 1e3:0.0##}, count = {layer.Count} }}"));
        return [$"to do      the feeder file still names another rear stack: write rear = [ {string.Join(", ", layers)} ] under [springs]"];
    }

    private static string Line(BookTrial trial, int place) => string.Create(
        CultureInfo.InvariantCulture,
        $"trial {place + 1,-4} {trial.Rear}: {(trial.StrokeMetres is null ? "no stroke" : $"{SessionNumbers.Stroke(trial)}, {SessionNumbers.Verdict(trial.Verdict)}")}{(trial.NaturalHz is { } hertz ? string.Create(CultureInfo.InvariantCulture, $", natural frequency {hertz:0.00} Hz") : "")}{(trial.LeftOut ? " (left out)" : "")}");
}
